import { Panel } from '../parts/Panel.tsx';
import { Segments } from '../parts/Segments.tsx';
import { useLeave } from '../parts/unsaved.ts';
import { selectNotes } from '../state/select.ts';
import type { SheetView } from '../state/sheet-view.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';
import { DialogNotice } from './DialogNotice.tsx';
import { LineUpEditor } from './LineUpEditor.tsx';
import { TrimsEditor } from './TrimsEditor.tsx';

export type NotesPanelProps = Readonly<{ face: 'line-up' | 'trims'; view: SheetView }>;

/** What is kept beside the station's file: what each channel carries, and the trims that can be turned. */
export function NotesPanel({ face, view }: NotesPanelProps) {
  const stored = useSelected(selectNotes);
  const { dialogOpened } = useActions();
  const close = () => dialogOpened({ open: 'none' });
  const key = String(stored?.revision);
  return (
    <Panel
      title={face === 'line-up' ? 'What the channels carry' : 'What can be turned'}
      isOpen
      onClose={close}
      width="widest"
    >
      <Faces face={face} />
      {face === 'line-up' ? (
        <LineUpEditor key={key} rows={view.shown?.rows ?? []} onDone={close} />
      ) : (
        <TrimsEditor key={key} port={view.port} onDone={close} />
      )}
      <DialogNotice />
    </Panel>
  );
}

/** Turning to the other face would throw edits of this one away. */
function Faces({ face }: Pick<NotesPanelProps, 'face'>) {
  const { dialogOpened } = useActions();
  const leave = useLeave();
  return (
    <Segments
      label="Beside the station’s file"
      chosen={face}
      onChoose={(open) => leave(() => dialogOpened({ open }))}
      options={[
        { key: 'line-up', text: 'Line-up' },
        { key: 'trims', text: 'Trims' },
      ]}
    />
  );
}
