import { ToggleButton } from 'react-aria-components';
import { bareLevel, bareMhz, levelWord, plugIn } from '../../format.ts';
import { PressButton } from '../../parts/PressButton.tsx';
import { emptyGainControl, emptySpan, type StationDraft } from '../../state/design/draft.ts';
import { newStage } from '../../state/design/edits.ts';
import type { DraftPart } from '../../state/design/made.ts';
import { selectLevelUnit } from '../../state/select.ts';
import { useSelected } from '../../state/use-workbench.ts';

export type DesignExtrasProps = Readonly<{
  draft: StationDraft;
  part: DraftPart;
  onPart: (part: DraftPart) => void;
  onChange: (draft: StationDraft, about: string) => void;
}>;

type Extra = Readonly<{
  at: 'stage' | 'span' | 'gain-control';
  name: string;
  /** What it is for, while nothing is said of it. */
  use: string;
  /** In figures, once something is. */
  words: string | null;
  begin: StationDraft | null;
}>;

const or = (value: number | null, words: (one: number) => string): string =>
  value === null ? '?' : words(value);
const modeWords = { auto: 'by its pilot', thermal: 'thermal', manual: 'by hand' } as const;

/** What a station may have besides its ways: each opens beside the picture, and what is not there is one press away. */
export function DesignExtras({ draft, part, onPart, onChange }: DesignExtrasProps) {
  const unit = useSelected(selectLevelUnit);
  const { stage, span, gainControl } = draft;
  const first = newStage(draft);
  const level = (dbmv: number) => bareLevel(dbmv, unit);
  const extras: readonly Extra[] = [
    {
      at: 'stage',
      name: 'First stage',
      use: first === null ? 'needs an input port' : 'what may go into it',
      words:
        stage === null
          ? null
          : `${or(stage.minDbmv, level)} to ${or(stage.maxDbmv, level)} ${levelWord(unit)} at ${or(stage.atMhz, bareMhz)} MHz`,
      begin: first === null ? null : { ...draft, stage: first },
    },
    {
      at: 'span',
      name: 'Span',
      use: 'for the season',
      words: span === null ? null : `${or(span.lossDb, plugIn)} dB at ${or(span.topMhz, bareMhz)} MHz`,
      begin: { ...draft, span: emptySpan },
    },
    {
      at: 'gain-control',
      name: 'Gain control',
      use: 'for its set-up and the season',
      words:
        gainControl === null
          ? null
          : `${modeWords[gainControl.mode]}, up ${or(gainControl.upDb, plugIn)}, down ${or(gainControl.downDb, plugIn)} dB`,
      begin: { ...draft, gainControl: emptyGainControl },
    },
  ];
  return (
    <ul className="design__extras" aria-label="What else belongs to it">
      {extras.map(({ at, name, use, words, begin }) => (
        <li key={at} className="design__extra">
          {words === null ? (
            <PressButton
              isDisabled={begin === null}
              onPress={() => {
                if (begin === null) return;
                onChange(begin, `${at} begun`);
                onPart({ at });
              }}
            >
              <span className="design__extra-name">{`Add ${name.toLowerCase()}`}</span>
              <small>{use}</small>
            </PressButton>
          ) : (
            <ToggleButton
              className="button button--plain button--usual"
              isSelected={part.at === at}
              onChange={() => onPart({ at })}
            >
              <span className="design__extra-name">{name}</span>
              <small>{words}</small>
            </ToggleButton>
          )}
        </li>
      ))}
    </ul>
  );
}
