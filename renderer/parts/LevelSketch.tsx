import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { bareMhz, level } from '../format.ts';

export type LevelSketchProps = Readonly<{
  /** MHz and dBmV, in any order. */
  levels: readonly (readonly [number, number])[];
  unit: LevelUnitName;
}>;

const WIDTH = 480;
const HEIGHT = 120;
/** Room at the foot for the frequencies and at the head for a level. */
const FOOT = 22;
const HEAD = 22;
const EDGE = 4;
/** A flat sweep looks flat, and no level stands on the ground. */
const LEAST_SPAN_DB = 12;

/** A carrier for each reading, so that a column or a unit that was taken wrongly is seen before it is accepted. */
export function LevelSketch({ levels, unit }: LevelSketchProps) {
  const [first] = levels;
  if (first === undefined) return null;
  const ends = { low: first, high: first, weakest: first, strongest: first };
  for (const one of levels) {
    if (one[0] < ends.low[0]) ends.low = one;
    if (one[0] > ends.high[0]) ends.high = one;
    if (one[1] < ends.weakest[1]) ends.weakest = one;
    if (one[1] > ends.strongest[1]) ends.strongest = one;
  }
  const spanMhz = Math.max(1, ends.high[0] - ends.low[0]);
  const spanDb = Math.max(LEAST_SPAN_DB, (ends.strongest[1] - ends.weakest[1]) * 1.5);
  const x = (mhz: number) => EDGE + ((mhz - ends.low[0]) / spanMhz) * (WIDTH - 2 * EDGE);
  const y = (dbmv: number) => HEAD + ((ends.strongest[1] - dbmv) / spanDb) * (HEIGHT - HEAD - FOOT);
  const path = levels
    .map(([mhz, dbmv]) => `M${x(mhz).toFixed(1)},${HEIGHT - FOOT}V${y(dbmv).toFixed(1)}`)
    .join('');
  const [strongMhz, strongDbmv] = ends.strongest;
  const anchor = x(strongMhz) < 60 ? 'start' : x(strongMhz) > WIDTH - 60 ? 'end' : 'middle';
  return (
    <svg
      className="sketch"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={`From ${level(ends.weakest[1], unit)} to ${level(strongDbmv, unit)}`}
    >
      <path className="sketch__carriers" d={path} />
      <path className="sketch__ground" d={`M0,${HEIGHT - FOOT}H${WIDTH}`} />
      <text className="sketch__words" x={x(strongMhz)} y={HEAD - 7} textAnchor={anchor}>
        {level(strongDbmv, unit)}
      </text>
      <text className="sketch__words" x={EDGE} y={HEIGHT - 5}>
        {bareMhz(ends.low[0])}
      </text>
      <text className="sketch__words" x={WIDTH - EDGE} y={HEIGHT - 5} textAnchor="end">
        {`${bareMhz(ends.high[0])} MHz`}
      </text>
    </svg>
  );
}
