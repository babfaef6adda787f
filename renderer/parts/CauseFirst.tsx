import type { Proposal } from '../../core/propose/propose.ts';
import { sizeDb } from '../format.ts';

export type CauseFirstProps = Readonly<{ proposal: Proposal }>;

/** Said instead of changes when level and tilt are right and only the shape is wrong. */
export const CauseFirst = ({ proposal }: CauseFirstProps) => (
  <div className="do do--calm">
    <p className="gain">Leave the parts. Find the cause of the shape.</p>
    <p>
      A connector that is loose or wet, damage in the span, a module. Plug-ins can’t mend a dip or a ripple;
      they would move every other channel off its level for{' '}
      <span className="keep">
        {sizeDb(proposal.before.worstDb)} down to {sizeDb(proposal.recommended.worstDb)}
      </span>{' '}
      at the worst one.
    </p>
  </div>
);
