import { Label, Radio, RadioGroup } from 'react-aria-components';
import { type LevelUnit, levelUnitWords, writtenLevelUnits } from '../../core/files/level-unit.ts';
import { tableWords } from '../../core/files/pasted/choose-tables.ts';
import type { SweepPreview } from '../../core/files/preview-sweep.ts';
import type { Told } from '../../core/files/sweep-csv.ts';
import { asWritten, capital } from '../format.ts';

export type SweepQuestionProps = Readonly<{
  preview: SweepPreview;
  told: Told;
  onTell: (told: Told) => void;
}>;

/** Where the file says nothing, dBm alone would leave the impedance open. */
const choiceWords: Partial<Record<LevelUnit, string>> = {
  dBm: 'dBm, 75\u00A0ohm',
  dBm50: 'dBm, 50\u00A0ohm',
};
const frequencyUnits = ['Hz', 'kHz', 'MHz', 'GHz'] as const;

type Choice = Readonly<{ key: string; words: string; told: Told }>;
type Question = Readonly<{ label: string; chosen: string; choices: readonly Choice[]; across: 1 | 3 | 4 }>;

/** What the person may say where the file does not: each question as it comes up, and answers stay open to change. */
function questionsFor({ asks, tables }: SweepPreview, told: Told): readonly Question[] {
  const isOpen = (ask: SweepPreview['asks'], answer: unknown) => asks === ask || answer !== undefined;
  const questions: Question[] = [];
  if (isOpen('table', told.table))
    questions.push({
      label: 'Which table?',
      chosen: String(told.table ?? ''),
      across: 1,
      choices: tables.map((table) => ({
        key: String(table.number),
        words: asWritten(capital(tableWords(table))),
        told: { ...told, table: table.number },
      })),
    });
  if (isOpen('level-unit', told.levelUnit))
    questions.push({
      label: 'What are its levels in?',
      chosen: told.levelUnit ?? '',
      across: 3,
      choices: writtenLevelUnits.map((levelUnit) => ({
        key: levelUnit,
        words: choiceWords[levelUnit] ?? levelUnitWords[levelUnit],
        told: { ...told, levelUnit },
      })),
    });
  if (isOpen('frequency-unit', told.frequencyUnit))
    questions.push({
      label: 'What are its frequencies in?',
      chosen: told.frequencyUnit ?? '',
      across: 4,
      choices: frequencyUnits.map((frequencyUnit) => ({
        key: frequencyUnit,
        words: frequencyUnit,
        told: { ...told, frequencyUnit },
      })),
    });
  return questions;
}

/** The questions whose answers make a file certain. */
export const SweepQuestion = ({ preview, told, onTell }: SweepQuestionProps) =>
  questionsFor(preview, told).map(({ label, chosen, choices, across }) => (
    <RadioGroup
      key={label}
      className={across === 1 ? 'ways' : `ways ways--row ways--by-${across}`}
      value={chosen}
      onChange={(key) => {
        const choice = choices.find((one) => one.key === key);
        if (choice !== undefined) onTell(choice.told);
      }}
    >
      <Label className="ways__label">{label}</Label>
      {choices.map(({ key, words }) => (
        <Radio key={key} value={key} className="way">
          <span className="way__knob" />
          <span className="way__words">
            <strong>{words}</strong>
          </span>
        </Radio>
      ))}
    </RadioGroup>
  ));
