import type { HeldAgainst as Held } from '../../core/propose/held-against.ts';
import { mhz, sizeDb } from '../format.ts';
import { howHeld } from '../how/proposal.ts';
import { HowText } from './HowText.tsx';
import { Mark } from './Mark.tsx';

export type HeldAgainstProps = Readonly<{
  /** And what was done between the two: parts exchanged, or trims turned. */
  held: Held & Readonly<{ after: 'parts' | 'trims' }>;
}>;

/** Whether the new sweep lies on the predicted line, and if not, where to look first. */
export const HeldAgainst = ({ held }: HeldAgainstProps) =>
  held.agrees ? (
    <p className="said said--good">
      <Mark verdict="pass" />
      <span>
        <strong>As predicted</strong>
        {', '}
        <HowText how={howHeld(held)} text={`within ${sizeDb(held.worstDb)}.`} />
      </span>
    </p>
  ) : (
    <p className="said said--bad" role="alert">
      <Mark verdict="fail" pointing={held.worstDb < 0 ? 'down' : 'up'} />
      <span>
        <strong>
          <HowText
            how={howHeld(held)}
            text={`Not as predicted: ${sizeDb(held.worstDb)} ${held.worstDb < 0 ? 'low' : 'high'} at ${mhz(held.worstMhz)}.`}
          />
        </strong>{' '}
        {held.after === 'parts'
          ? `The meter and the parts\u2019 own tolerance explain ${sizeDb(held.withinDb)}. A part may not be what its label says, or not seated.`
          : `The meter and the hand explain ${sizeDb(held.withinDb)}. A trim may not do what the notes say of it, or was turned by something else.`}
      </span>
    </p>
  );
