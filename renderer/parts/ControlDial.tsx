import { signedDecimal } from '../format.ts';

export type ControlDialProps = Readonly<{
  controlDb: number;
  lowestDb: number;
  highestDb: number;
  atEnd: 'low' | 'high' | null;
}>;

/** The knob goes from seven to five o'clock, as such a control does. */
const FROM_DEGREES = -140;
const TO_DEGREES = 140;
const MIDDLE = 44;
const REACH = 34;

const at = (degrees: number, radius: number) => {
  const turn = (degrees / 180) * Math.PI;
  return { x: MIDDLE + Math.sin(turn) * radius, y: MIDDLE - Math.cos(turn) * radius };
};

/** A control as it stands between its ends. */
export function ControlDial({ controlDb, lowestDb, highestDb, atEnd }: ControlDialProps) {
  const share = highestDb > lowestDb ? (controlDb - lowestDb) / (highestDb - lowestDb) : 0;
  const degrees = FROM_DEGREES + Math.max(0, Math.min(1, share)) * (TO_DEGREES - FROM_DEGREES);
  const from = at(FROM_DEGREES, REACH);
  const to = at(TO_DEGREES, REACH);
  const tip = at(degrees, REACH - 8);
  const words = `Control ${signedDecimal(controlDb)} dB from the design${atEnd === null ? '' : `, at its ${atEnd} end`}`;
  return (
    <svg className="control-dial" viewBox="0 0 88 88" role="img" aria-label={words}>
      <path
        className="control-dial__way"
        d={`M${from.x.toFixed(1)} ${from.y.toFixed(1)}A${REACH} ${REACH} 0 1 1 ${to.x.toFixed(1)} ${to.y.toFixed(1)}`}
      />
      <line className="control-dial__pointer" x1={MIDDLE} y1={MIDDLE} x2={tip.x} y2={tip.y} />
      <circle className="control-dial__hub" cx={MIDDLE} cy={MIDDLE} r={5} />
      <text className="control-dial__words" x={MIDDLE} y={84} textAnchor="middle">
        {signedDecimal(controlDb)}
      </text>
    </svg>
  );
}
