import { useState } from 'react';
import { Input, Label, TextField } from 'react-aria-components';
import { Panel } from '../../parts/Panel.tsx';
import { PressButton } from '../../parts/PressButton.tsx';
import { useUnsaved } from '../../parts/unsaved.ts';
import { selectBusy, selectNotes } from '../../state/select.ts';
import { useSelected, useWorkbench } from '../../state/use-workbench.ts';
import { DialogNotice } from '../DialogNotice.tsx';

export type InServiceProps = Readonly<{ name: string; onClose: () => void }>;

/** Whether anybody is still sent to a station. Its records stay either way, and it can be brought back. */
export const InService = ({ name, onClose }: InServiceProps) => (
  <Panel title={`Is ${name} in service?`} isOpen onClose={onClose}>
    <Form onClose={onClose} />
  </Panel>
);

function Form({ onClose }: Pick<InServiceProps, 'onClose'>) {
  const kept = useSelected(selectNotes)?.notes?.outOfService?.reason ?? null;
  const busy = useSelected(selectBusy);
  const { changeNotes } = useWorkbench();
  const [reason, setReason] = useState(kept ?? '');
  const said = reason.trim();
  const put = (outOfService: Readonly<{ reason: string }> | undefined) => changeNotes({ outOfService });
  useUnsaved({
    isChanged: said !== (kept ?? ''),
    trouble: said === '' ? 'Say why it is out of service, or bring it back.' : null,
    keep: () => put({ reason: said }),
  });
  const close = async (outOfService: Readonly<{ reason: string }> | undefined) => {
    if (await put(outOfService)) onClose();
  };
  return (
    <>
      <p>
        {kept === null
          ? 'Out of service it stands below all others and on no list of what is due. Every record of it stays.'
          : 'It is out of service: it stands below all others and on no list of what is due.'}
      </p>
      <TextField className="field" value={reason} maxLength={400} onChange={setReason} autoFocus>
        <Label>Why</Label>
        <Input placeholder="replaced by 08 Mill Lane, taken down in March" />
      </TextField>
      <DialogNotice />
      <div className="panel__end">
        {kept !== null && (
          <PressButton isDisabled={busy === 'notes'} onPress={() => close(undefined)}>
            Bring it back into service
          </PressButton>
        )}
        <PressButton
          rank="do"
          size="visit"
          isDisabled={said === '' || said === kept || busy === 'notes'}
          onPress={() => close({ reason: said })}
        >
          Take it out of service
        </PressButton>
      </div>
    </>
  );
}
