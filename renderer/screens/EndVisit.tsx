import { useState } from 'react';
import { Label, TextArea, TextField } from 'react-aria-components';
import { Panel } from '../parts/Panel.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { useUnsaved } from '../parts/unsaved.ts';
import { selectBusy } from '../state/select.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { DialogNotice } from './DialogNotice.tsx';

/** The end of a visit, with a note for whoever comes next. */
export function EndVisit() {
  const { dialogOpened } = useActions();
  return (
    <Panel title="End the visit" isOpen onClose={() => dialogOpened({ open: 'none' })}>
      <EndForm />
    </Panel>
  );
}

function EndForm() {
  const busy = useSelected(selectBusy);
  const { endVisit } = useWorkbench();
  const [note, setNote] = useState('');
  useUnsaved({
    isChanged: note.trim() !== '',
    trouble: 'the note is kept with the end of the visit.',
    keep: () => Promise.resolve(false),
  });
  return (
    <>
      <p>Sweeps and fittings are in the archive already. After this the visit takes no more.</p>
      <TextField className="field" value={note} onChange={setNote} maxLength={4000}>
        <Label>Note for the next visit</Label>
        <TextArea rows={4} placeholder="What a sweep can’t show: corrosion, a loose strand, a key." />
      </TextField>
      <DialogNotice />
      <div className="panel__end">
        <PressButton
          rank="do"
          size="visit"
          isDisabled={busy === 'end-visit'}
          onPress={() => endVisit(note)}
          autoFocus
        >
          End the visit
        </PressButton>
      </div>
    </>
  );
}
