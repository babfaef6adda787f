export type TrendLineProps = Readonly<{ values: readonly number[] }>;

const WIDTH = 96;
const HEIGHT = 28;
/** Every small line has the same height of decibels, so that a steep one looks steep beside a flat one. */
const LEAST_SPAN_DB = 2;

/** How a figure went from sweep to sweep; its words stand beside it. */
export function TrendLine({ values }: TrendLineProps) {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const spanDb = Math.max(LEAST_SPAN_DB, high - low);
  const middle = (low + high) / 2;
  const x = (i: number) => 4 + (i / Math.max(1, values.length - 1)) * (WIDTH - 8);
  const y = (db: number) => HEIGHT / 2 - ((db - middle) / spanDb) * (HEIGHT - 8);
  const last = values.at(-1);
  return (
    <svg className="trend-line" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      {values.length > 1 && (
        <polyline points={values.map((db, i) => `${x(i).toFixed(1)},${y(db).toFixed(1)}`).join(' ')} />
      )}
      {last !== undefined && <circle cx={x(values.length - 1)} cy={y(last)} r="3.5" />}
    </svg>
  );
}
