import type { LevelRow } from '../../core/line/level-row.ts';

export type SparklineProps = Readonly<{ rows: readonly LevelRow[]; ink: 'found' | 'left' | 'check' }>;

const WIDTH = 72;
const HEIGHT = 32;
/** Every sparkline shows the same height of levels, so that a steep one looks steep beside a flat one. */
const SPAN_DB = 16;

export function Sparkline({ rows, ink }: SparklineProps) {
  const read = rows.flatMap((row) =>
    row.frequencyMhz === null || row.levelDbmv === null ? [] : [[row.frequencyMhz, row.levelDbmv] as const],
  );
  const first = read[0];
  const last = read.at(-1);
  if (first === undefined || last === undefined)
    return <svg className="sparkline" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true" />;
  const middle = (Math.min(...read.map(([, l]) => l)) + Math.max(...read.map(([, l]) => l))) / 2;
  const width = Math.max(1, last[0] - first[0]);
  const points = read.map(([f, l]) => {
    const x = 2 + ((f - first[0]) / width) * (WIDTH - 4);
    const y = HEIGHT / 2 - ((l - middle) / SPAN_DB) * (HEIGHT - 4);
    return `${x.toFixed(1)},${y.toFixed(1)}`;
  });
  return (
    <svg className={`sparkline sparkline--${ink}`} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      <polyline points={points.join(' ')} />
    </svg>
  );
}
