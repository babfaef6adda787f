import { useState } from 'react';
import {
  Button,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
  Select,
  SelectValue,
} from 'react-aria-components';
import { CABLES } from '../../core/coax/cables.ts';
import { cableNamed } from '../../core/coax/loss.ts';
import { lengthForLossM, spanLossDb } from '../../core/coax/span.ts';
import { PER_DEGREE_F, PER_DEGREE_F_OTHER } from '../../core/coax/temperature.ts';
import type { SpanNotes } from '../../core/files/station-figures.ts';
import { lengthFrom, lengthIn } from '../../core/units.ts';
import { mhz } from '../format.ts';
import { basisOf } from '../how/span.ts';
import { NumberEntry } from '../parts/NumberEntry.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { Segments } from '../parts/Segments.tsx';
import { UndoButtons } from '../parts/UndoButtons.tsx';
import { useUnsaved } from '../parts/unsaved.ts';
import { selectBusy, selectLengthUnit } from '../state/select.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';

const shortBasis = (name: string): string =>
  basisOf(name)
    .replace(/^Loss table: /, '')
    .replace(/\.$/, '');

export type SpanEntryProps = Readonly<{
  draft: SpanNotes;
  kept: SpanNotes | undefined;
  /** True when a person said it, and not the screen for a beginning. */
  isSaid: boolean;
  highMhz: number;
  onDraft: (draft: SpanNotes) => void;
  undo: (() => void) | null;
  redo: (() => void) | null;
}>;

/** The span as it was hung: its cable, and its length or its loss; each of the two gives the other. */
export function SpanEntry({ draft, kept, isSaid, highMhz, onDraft, undo, redo }: SpanEntryProps) {
  const unit = useSelected(selectLengthUnit);
  const busy = useSelected(selectBusy);
  const { changeNotes } = useWorkbench();
  const [wrong, setWrong] = useState('');
  const cable = cableNamed(draft.cable);
  const loss = cable.ok ? spanLossDb(cable.value, highMhz, draft.lengthM) : cable;
  const shown = lengthIn(unit, draft.lengthM);
  const perDegreeF = draft.perDegreeF ?? PER_DEGREE_F;
  const changed =
    kept === undefined ||
    kept.cable !== draft.cable ||
    kept.lengthM !== draft.lengthM ||
    (kept.perDegreeF ?? PER_DEGREE_F) !== perDegreeF;
  const keep = () => changeNotes({ span: draft });
  useUnsaved({ isChanged: isSaid && changed, trouble: null, keep });
  const turnTo = (change: Partial<SpanNotes>, help = '') => {
    setWrong(help);
    onDraft({ ...draft, ...change });
  };
  const sayLength = (value: number) => {
    const told = lengthFrom(unit, value);
    if (told.ok && told.value > 0) turnTo({ lengthM: told.value });
    else setWrong('A span is longer than nothing.');
  };
  const sayLoss = (lossDb: number) => {
    const told = cable.ok ? lengthForLossM(cable.value, highMhz, lossDb) : cable;
    if (told.ok && told.value > 0 && told.value <= 10_000) turnTo({ lengthM: told.value });
    else setWrong(told.ok ? 'No span is that long.' : `${told.where}: ${told.help}`);
  };
  return (
    <section className="span-entry" aria-label="The span in front of this station">
      <Select
        className="field field--line"
        value={draft.cable}
        onChange={(key) => key !== null && turnTo({ cable: String(key) })}
      >
        <Label>Cable</Label>
        <Button className="select-button span-entry__cable">
          <SelectValue>{draft.cable}</SelectValue>
        </Button>
        <Popover className="popover">
          <ListBox className="options">
            {CABLES.map(({ name, construction }) => (
              <ListBoxItem key={name} id={name} textValue={name} className="option span-entry__option">
                <strong>{name}</strong> <span>{construction}</span> <small>{shortBasis(name)}</small>
              </ListBoxItem>
            ))}
          </ListBox>
        </Popover>
      </Select>
      <NumberEntry
        className="field field--line"
        value={shown.ok ? shown.value : Number.NaN}
        minValue={0}
        formatOptions={{ maximumFractionDigits: 0, useGrouping: false }}
        onChange={(value) => Number.isFinite(value) && sayLength(value)}
      >
        <Label>Length</Label>
        <Input />
        <span aria-hidden="true">{unit}</span>
      </NumberEntry>
      <NumberEntry
        className="field field--line"
        value={loss.ok ? loss.value : Number.NaN}
        minValue={0}
        formatOptions={{ maximumFractionDigits: 1, minimumFractionDigits: 1 }}
        onChange={(value) => Number.isFinite(value) && sayLoss(value)}
      >
        <Label>{`or loss at ${mhz(highMhz)}`}</Label>
        <Input />
        <span aria-hidden="true">dB</span>
      </NumberEntry>
      <div className="span-entry__warmth">
        <span className="span-entry__name">Changes a °F by</span>
        <Segments
          label="Part of its loss by which it changes a degree Fahrenheit"
          chosen={perDegreeF === PER_DEGREE_F ? 'usual' : perDegreeF === PER_DEGREE_F_OTHER ? 'other' : null}
          onChoose={(key) => turnTo({ perDegreeF: key === 'usual' ? PER_DEGREE_F : PER_DEGREE_F_OTHER })}
          options={[
            { key: 'usual', text: '0.11 %' },
            { key: 'other', text: '0.10 %' },
          ]}
        />
      </div>
      <UndoButtons undo={undo} redo={redo} />
      {changed && (
        <PressButton
          {...(isSaid ? { rank: 'do' as const } : {})}
          onPress={() => void keep()}
          isDisabled={busy === 'notes'}
        >
          Keep this span
        </PressButton>
      )}
      <p className="span-entry__basis" role="status">
        {wrong}
      </p>
    </section>
  );
}
