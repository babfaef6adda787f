import { useState } from 'react';
import { Label, TextArea, TextField } from 'react-aria-components';
import { type SetUpStepId, setUpSteps } from '../../core/set-up/steps.ts';
import { Panel } from '../parts/Panel.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { useUnsaved } from '../parts/unsaved.ts';
import type { SetUpView } from '../state/set-up-view.ts';
import { useWorkbench } from '../state/use-workbench.ts';
import { DialogNotice } from './DialogNotice.tsx';

export type SetUpAsk =
  | Readonly<{ ask: 'skip'; step: SetUpStepId }>
  | Readonly<{ ask: 'again'; step: SetUpStepId }>
  | Readonly<{ ask: 'give-up' }>;

export type SetUpDialogProps = Readonly<{ ask: SetUpAsk; view: SetUpView; onClose: () => void }>;

const titleOf = (id: SetUpStepId): string => setUpSteps.find((step) => step.id === id)?.title ?? id;

/** Steps that open again when this one is done again, because they rest on it. */
function openedWith(view: SetUpView, id: SetUpStepId): readonly string[] {
  const opened = new Set<SetUpStepId>([id]);
  return view.state.steps.flatMap(({ step, state }) => {
    if (!step.restsOn.some((under) => opened.has(under))) return [];
    opened.add(step.id);
    return state.at === 'open' ? [] : [step.title];
  });
}

const words = {
  skip: { act: 'Skip it', reason: 'Why it is skipped', needs: true },
  again: { act: 'Do it again', reason: 'Why', needs: false },
  'give-up': { act: 'Give the set-up up', reason: 'Why it is given up', needs: true },
} as const;

/** Skipping, doing again and giving up: each says what follows, and keeps the reason in the record. */
export function SetUpDialog(props: SetUpDialogProps) {
  const { ask, onClose } = props;
  const title =
    ask.ask === 'skip'
      ? `Skip “${titleOf(ask.step)}”`
      : ask.ask === 'again'
        ? `Do “${titleOf(ask.step)}” again`
        : 'Give the set-up up';
  return (
    <Panel title={title} isOpen onClose={onClose}>
      <SetUpForm {...props} />
    </Panel>
  );
}

function SetUpForm({ ask, view, onClose }: SetUpDialogProps) {
  const { recordStep, abandonSetUp } = useWorkbench();
  const [reason, setReason] = useState('');
  const said = reason.trim();
  const { act, reason: label, needs } = words[ask.ask];
  const again = ask.ask === 'again' ? openedWith(view, ask.step) : [];
  useUnsaved({
    isChanged: said !== '',
    trouble: `the reason goes into the record with \u201C${act}\u201D.`,
    keep: () => Promise.resolve(false),
  });
  const go = async () => {
    const done =
      ask.ask === 'give-up'
        ? await abandonSetUp(said)
        : await recordStep({
            step: ask.step,
            outcome: ask.ask === 'skip' ? 'skipped' : 'redo',
            by: 'hand',
            reason: said === '' ? null : said,
            values: {},
            liveId: null,
          });
    if (done) onClose();
  };
  return (
    <>
      {ask.ask === 'again' && (
        <p>
          {again.length === 0
            ? 'What it found out before stays in the record.'
            : `These rest on it and open again: ${again.join(', ')}. What they found out stays in the record.`}
        </p>
      )}
      {ask.ask === 'give-up' && <p>What was recorded until now stays. Another set-up may be begun.</p>}
      <TextField className="field" value={reason} onChange={setReason} maxLength={400} autoFocus>
        <Label>{label}</Label>
        <TextArea rows={2} placeholder={needs ? 'it stands in the record' : 'may stay empty'} />
      </TextField>
      <DialogNotice />
      <div className="panel__end">
        <PressButton rank="do" size="visit" isDisabled={needs && said === ''} onPress={go}>
          {act}
        </PressButton>
      </div>
    </>
  );
}
