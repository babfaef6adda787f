import type { Proposal } from '../../core/propose/propose.ts';
import { sizeDb } from '../format.ts';

export type CauseFirstProps = Readonly<{ proposal: Proposal }>;

/** Said instead of changes when level and tilt are right and only the shape is wrong. */
export const CauseFirst = ({ proposal }: CauseFirstProps) => (
  <div className="do do--calm">
    <p className="gain">This cannot be mended by plug-ins. Find the cause of the shape.</p>
    <p>
      Look for a connector that is loose or wet, damage in the span, a failing module. A change of parts would
      bring the worst channel from <span className="keep">{sizeDb(proposal.before.worstDb)}</span> to{' '}
      <span className="keep">{sizeDb(proposal.recommended.worstDb)}</span> only by moving others off their
      level.
    </p>
  </div>
);
