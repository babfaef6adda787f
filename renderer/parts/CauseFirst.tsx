import type { Design } from '../../core/files/station.ts';
import type { Proposal } from '../../core/propose/propose.ts';
import { sizeDb } from '../format.ts';
import { howPrediction } from '../how/prediction.ts';
import { HowText } from './HowText.tsx';

export type CauseFirstProps = Readonly<{ proposal: Proposal; design: Design }>;

/** Said instead of changes when level and tilt are right and only the shape is wrong. */
export const CauseFirst = ({ proposal, design }: CauseFirstProps) => (
  <div className="do do--calm">
    <p className="gain">This cannot be mended by plug-ins. Find the cause of the shape.</p>
    <p>
      Look for a connector that is loose or wet, damage in the span, a failing module. A change of parts would
      bring the worst channel from <span className="keep">{sizeDb(proposal.before.worstDb)}</span> to{' '}
      <HowText
        how={howPrediction(proposal.recommended, proposal.count, design, null)}
        text={sizeDb(proposal.recommended.worstDb)}
      />{' '}
      only by moving others off their level.
    </p>
  </div>
);
