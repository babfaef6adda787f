import { Label, Radio, RadioGroup } from 'react-aria-components';
import { tableWords } from '../../core/files/pasted/choose-tables.ts';
import type { SweepPreview } from '../../core/files/preview-sweep.ts';
import type { Told } from '../../core/files/sweep-csv.ts';

export type SweepQuestionProps = Readonly<{
  preview: SweepPreview;
  told: Told;
  onTell: (told: Told) => void;
}>;

const levelUnits = ['dBmV', 'dBuV', 'dBm'] as const;
const frequencyUnits = ['Hz', 'kHz', 'MHz', 'GHz'] as const;

type Choice = Readonly<{ key: string; words: string; told: Told }>;

/** What the person may say where the file does not: one question at a time, and answers stay open to change. */
function choicesFor(
  { asks, tables }: SweepPreview,
  told: Told,
): Readonly<{ label: string; choices: Choice[] }> | null {
  if (asks === 'table' || told.table !== undefined)
    return {
      label: 'Which table?',
      choices: tables.map((table) => ({
        key: String(table.number),
        words: tableWords(table),
        told: { ...told, table: table.number },
      })),
    };
  if (asks === 'level-unit' || told.levelUnit !== undefined)
    return {
      label: 'What are its levels in?',
      choices: levelUnits.map((levelUnit) => ({
        key: levelUnit,
        words: levelUnit,
        told: { ...told, levelUnit },
      })),
    };
  if (asks === 'frequency-unit' || told.frequencyUnit !== undefined)
    return {
      label: 'What are its frequencies in?',
      choices: frequencyUnits.map((frequencyUnit) => ({
        key: frequencyUnit,
        words: frequencyUnit,
        told: { ...told, frequencyUnit },
      })),
    };
  return null;
}

/** The question whose answer makes a file certain. */
export function SweepQuestion({ preview, told, onTell }: SweepQuestionProps) {
  const question = choicesFor(preview, told);
  if (question === null) return null;
  const { label, choices } = question;
  const chosen = choices.find(
    ({ told: one }) =>
      one.table === told.table &&
      one.levelUnit === told.levelUnit &&
      one.frequencyUnit === told.frequencyUnit,
  );
  return (
    <RadioGroup
      className="ways"
      value={chosen?.key ?? ''}
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
  );
}
