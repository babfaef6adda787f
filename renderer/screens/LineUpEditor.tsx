import { useState } from 'react';
import { Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue } from 'react-aria-components';
import { PLAN_NAMES, planTitle } from '../../core/channels/plans.ts';
import type { LevelRow } from '../../core/line/level-row.ts';
import { counted } from '../format.ts';
import { EntryEditor } from '../parts/EntryEditor.tsx';
import { LineUpTable } from '../parts/LineUpTable.tsx';
import { Mark } from '../parts/Mark.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { UndoButtons } from '../parts/UndoButtons.tsx';
import { useUnsaved } from '../parts/unsaved.ts';
import {
  carries,
  groupsOf,
  keptDraft,
  type LineUpDraft,
  learnedDraft,
  sameEntries,
  troubleOf,
  withChange,
  withOneMore,
  without,
} from '../state/line-up-draft.ts';
import { selectBusy, selectNotes } from '../state/select.ts';
import { useUndo } from '../state/use-undo.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';

export type LineUpEditorProps = Readonly<{
  /** The shown sweep: a line-up that is not kept yet is learned from it. */
  rows: readonly LevelRow[];
  onDone: () => void;
}>;

/** The line-up: what was learned from the sweep, looked over and put right, then kept. */
export function LineUpEditor({ rows, onDone }: LineUpEditorProps) {
  const stored = useSelected(selectNotes)?.notes?.lineUp;
  const busy = useSelected(selectBusy);
  const { changeNotes } = useWorkbench();
  const [first] = useState<LineUpDraft | null>(() =>
    stored === undefined ? learnedDraft(rows) : keptDraft(stored),
  );
  const { draft, say: setDraft, undo, redo } = useUndo(first);
  const [chosenMhz, setChosenMhz] = useState<ReadonlySet<number>>(new Set());
  const turnTo = (next: LineUpDraft | null) => {
    setDraft(next);
    setChosenMhz(new Set());
  };
  const save = (lineUp: typeof stored) => changeNotes({ lineUp });
  useUnsaved({
    isChanged: draft !== null && !sameEntries(draft, first),
    trouble: draft === null ? null : troubleOf(draft),
    keep: () => save([...(draft?.entries ?? [])]),
  });
  if (draft === null)
    return <p>Read this port first: the line-up is learned from a sweep, then put right by hand.</p>;

  const chosen = draft.entries.filter(({ frequencyMhz }) => chosenMhz.has(frequencyMhz));
  const doubtful = draft.entries.filter(({ frequencyMhz }) => draft.doubts.has(frequencyMhz));
  const trouble = troubleOf(draft);
  const keep = async (lineUp: typeof stored) => {
    if (await save(lineUp)) onDone();
  };
  return (
    <div className="line-up">
      <div className="line-up__main">
        <Said draft={draft} isKept={stored !== undefined} doubtCount={doubtful.length} trouble={trouble} />
        <div className="line-up__picks">
          <PressButton
            onPress={() => setChosenMhz(new Set(draft.entries.map(({ frequencyMhz }) => frequencyMhz)))}
          >
            {`All ${draft.entries.length}`}
          </PressButton>
          {groupsOf(draft).map(({ name, frequenciesMhz }) => (
            <PressButton key={name} onPress={() => setChosenMhz(new Set(frequenciesMhz))}>
              {`${name}: ${frequenciesMhz.length}`}
            </PressButton>
          ))}
          <PressButton
            rank="quiet"
            onPress={() => {
              const { draft: next, addedMhz } = withOneMore(draft);
              setDraft(next);
              setChosenMhz(new Set([addedMhz]));
            }}
          >
            Add a channel
          </PressButton>
        </div>
        <LineUpTable
          entries={draft.entries}
          carries={carries}
          doubts={draft.doubts}
          chosenMhz={chosenMhz}
          onChoose={setChosenMhz}
        />
      </div>
      <div className="line-up__side">
        {chosen.length === 0 ? (
          <p className="quiet">
            Choose channels: a press takes one, Shift and the arrows a stretch, the keys above a whole kind.
            What they carry is changed here, for all of them at once.
          </p>
        ) : (
          <EntryEditor
            entries={chosen}
            doubts={chosen.flatMap(({ frequencyMhz }) => draft.doubts.get(frequencyMhz) ?? [])}
            onChange={(change) => {
              setDraft(withChange(draft, chosenMhz, change));
              if (change.frequencyMhz !== undefined) setChosenMhz(new Set([change.frequencyMhz]));
            }}
            onRemove={() => turnTo(without(draft, chosenMhz))}
          />
        )}
        <div className="line-up__acts">
          <UndoButtons undo={undo} redo={redo} />
          {rows.length > 0 && <LearnAgain draft={draft} rows={rows} onLearned={turnTo} />}
          {trouble !== null && (
            <p className="said said--bad" role="alert">
              <Mark verdict="fail" pointing="up" />
              <span>{trouble}</span>
            </p>
          )}
          {stored !== undefined && (
            <PressButton rank="quiet" onPress={() => keep(undefined)}>
              Judge without a line-up
            </PressButton>
          )}
          <PressButton
            rank="do"
            size="visit"
            isDisabled={trouble !== null || busy === 'notes'}
            onPress={() => keep([...draft.entries])}
          >
            Judge by this line-up
          </PressButton>
        </div>
      </div>
    </div>
  );
}

type SaidProps = Readonly<{
  draft: LineUpDraft;
  isKept: boolean;
  doubtCount: number;
  trouble: string | null;
}>;

/** Where the line-up comes from, and what in it is a guess. */
function Said({ draft, isKept, doubtCount, trouble }: SaidProps) {
  const learned = draft.whole.length > 0 || doubtCount > 0 || draft.plan !== null;
  const from =
    isKept && !learned
      ? 'This line-up is kept, and every sweep here is judged by it.'
      : 'Learned from the shown sweep. Nothing is judged by it until it is kept.';
  const guessed =
    doubtCount === 0
      ? ''
      : ` ${counted(doubtCount, 'channel is', 'channels are')} guessed: the sweep does not tell.`;
  const left =
    draft.leftOutCount === 0
      ? ''
      : ` ${counted(draft.leftOutCount, 'row makes', 'rows make')} no channel: no level was read there.`;
  return (
    <div className="line-up__said">
      <p>{`${from}${guessed}${left}`}</p>
      {/* What must be put right is said where it is put right. */}
      {draft.whole
        .filter((why) => why !== trouble)
        .map((why) => (
          <p key={why}>
            <Mark verdict="undecided" /> {why}
          </p>
        ))}
    </div>
  );
}

type LearnAgainProps = Readonly<{
  draft: LineUpDraft;
  rows: readonly LevelRow[];
  onLearned: (draft: LineUpDraft | null) => void;
}>;

/** The plan decides names, widths and guesses; who knows it chooses it, and the sweep is looked at again. */
const LearnAgain = ({ draft, rows, onLearned }: LearnAgainProps) => (
  <Select
    className="field"
    value={draft.plan}
    placeholder="not on a plan"
    onChange={(key) => {
      const plan = PLAN_NAMES.find((name) => name === key);
      if (plan !== undefined) onLearned(learnedDraft(rows, plan));
    }}
  >
    <Label>Learn it anew, on the plan</Label>
    <Button className="select-button">
      <SelectValue />
    </Button>
    <Popover className="popover">
      <ListBox className="options">
        {PLAN_NAMES.map((name) => (
          <ListBoxItem key={name} id={name} className="option">
            {planTitle(name)}
          </ListBoxItem>
        ))}
      </ListBox>
    </Popover>
  </Select>
);
