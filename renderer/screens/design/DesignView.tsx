import { DesignSketch } from '../../parts/DesignSketch.tsx';
import type { PortDraft } from '../../state/design/draft.ts';
import { completeDesign } from '../../state/design/made.ts';
import { selectLevelUnit } from '../../state/select.ts';
import { useSelected } from '../../state/use-workbench.ts';

/** What the sweeps of a port will be held against, as soon as its two ends are said. */
export function DesignView({ port }: Readonly<{ port: PortDraft }>) {
  const unit = useSelected(selectLevelUnit);
  const design = completeDesign(port.design);
  return (
    <figure className="design__view">
      {design !== null ? (
        <DesignSketch design={design} unit={unit} />
      ) : (
        <p className="quiet">
          {port.design === null
            ? 'This port is only read: its sweeps are held against no design.'
            : 'Say the two ends of the design and how far a channel may be off, and the line appears here.'}
        </p>
      )}
    </figure>
  );
}
