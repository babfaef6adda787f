import { Panel } from '../parts/Panel.tsx';
import { useActions } from '../state/use-workbench.ts';
import { BeginForm } from './BeginForm.tsx';
import { DialogNotice } from './DialogNotice.tsx';

/** A new visit to a station that was read before: the cautions come over its last finding. */
export function BeginVisit() {
  const { dialogOpened } = useActions();
  return (
    <Panel
      title="Before you open the housing"
      isOpen
      onClose={() => dialogOpened({ open: 'none' })}
      width="wide"
    >
      <BeginForm shape="dialog" />
      <DialogNotice />
    </Panel>
  );
}
