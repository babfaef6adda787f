import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { Design } from '../../core/files/station.ts';
import { targetDbmv } from '../../core/line/design-line.ts';
import { bareLevel, bareMhz, levelWord, oneDecimal } from '../format.ts';

export type DesignSketchProps = Readonly<{ design: Design; unit: LevelUnitName }>;

const WIDTH = 900;
const HEIGHT = 270;
const LEFT = 8;
const RIGHT = 892;
const TOP = 40;
/** Room for the level of the lower end, the ground, and the frequencies. */
const FOOT = 76;
const GROUND = HEIGHT - 30;
/** Enough for a curve in the root of the frequency to look like one. */
const STEPS = 48;
/** A flat design looks flat. */
const LEAST_SPAN_DB = 14;

/** The line that a port is held against, within what a channel may be off, with its two ends in figures. */
export function DesignSketch({ design, unit }: DesignSketchProps) {
  const { lowMhz, highMhz, lowDbmv, highDbmv, toleranceDb } = design;
  const middle = (lowDbmv + highDbmv) / 2;
  const spanDb = Math.max(LEAST_SPAN_DB, (Math.abs(highDbmv - lowDbmv) + 2 * toleranceDb) * 1.25);
  const x = (mhz: number) => LEFT + ((mhz - lowMhz) / (highMhz - lowMhz)) * (RIGHT - LEFT);
  const y = (dbmv: number) => TOP + (0.5 - (dbmv - middle) / spanDb) * (HEIGHT - TOP - FOOT);
  const frequencies = Array.from({ length: STEPS + 1 }, (_, i) => lowMhz + (i / STEPS) * (highMhz - lowMhz));
  const along = (offDb: number) =>
    frequencies.map((mhz) => `${x(mhz).toFixed(1)},${y(targetDbmv(design, mhz) + offDb).toFixed(1)}`);
  const isUpper = (dbmv: number) => dbmv >= middle;
  const end = (mhz: number, dbmv: number, anchor: 'start' | 'end') => (
    <>
      <circle className="design-sketch__end" cx={x(mhz)} cy={y(dbmv)} r={6} />
      <text
        className="design-sketch__level"
        x={anchor === 'start' ? LEFT : RIGHT}
        // Beside the band, on the side that it does not lean to.
        y={isUpper(dbmv) ? y(dbmv + toleranceDb) - 12 : y(dbmv - toleranceDb) + 24}
        textAnchor={anchor}
      >
        {`${bareLevel(dbmv, unit)} ${levelWord(unit)}`}
      </text>
      <text
        className="design-sketch__mhz"
        x={anchor === 'start' ? LEFT : RIGHT}
        y={HEIGHT - 8}
        textAnchor={anchor}
      >
        {`${bareMhz(mhz)} MHz`}
      </text>
    </>
  );
  return (
    <svg
      className="design-sketch"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={`The design: ${bareLevel(lowDbmv, unit)} at ${bareMhz(lowMhz)} MHz to ${bareLevel(highDbmv, unit)} ${levelWord(unit)} at ${bareMhz(highMhz)} MHz, within ±${oneDecimal(toleranceDb)} dB`}
    >
      <path
        className="design-sketch__band"
        d={`M${along(toleranceDb).join('L')}L${along(-toleranceDb).reverse().join('L')}Z`}
      />
      <path className="design-sketch__line" d={`M${along(0).join('L')}`} />
      <path className="design-sketch__ground" d={`M0,${GROUND}H${WIDTH}`} />
      {end(lowMhz, lowDbmv, 'start')}
      {end(highMhz, highDbmv, 'end')}
    </svg>
  );
}
