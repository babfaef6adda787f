import { Button } from 'react-aria-components';
import type { PlugInKind } from '../../core/files/station.ts';
import { plugIn } from '../format.ts';
import type { How } from '../how/how.ts';
import { Glyph } from './Glyph.tsx';
import { HowText } from './HowText.tsx';

export type PathBlock =
  | Readonly<{ kind: 'amplifier'; key: string }>
  | Readonly<{
      kind: 'position';
      name: string;
      plugInKind: PlugInKind;
      inDb: number;
      toDb: number | null;
      /** What is in takes away so much, and how that was reckoned; null where the port says no band. */
      loss: Readonly<{ words: string; how: How }> | null;
    }>;

export type PathEnd = Readonly<{
  name: string;
  /** The level there, and how it came about; null where none is known. */
  level: Readonly<{ words: string; how: How }> | null;
  here: boolean;
}>;

export type SignalPathProps = Readonly<{
  blocks: readonly PathBlock[];
  input: PathEnd;
  output: PathEnd;
  onPosition: (name: string) => void;
  locked: boolean;
}>;

const kindWords: Record<PlugInKind, string> = {
  pad: 'pad',
  equalizer: 'equalizer',
  'cable-simulator': 'cable simulator',
};

const blockWords = (name: string, inDb: number, toDb: number | null) =>
  toDb === null
    ? `${name}: ${plugIn(inDb)} is in. Change what is in.`
    : `${name}: ${plugIn(inDb)} is in, change to ${plugIn(toDb)}. Change what is in.`;

const End = ({ name, level, here }: PathEnd) => (
  <li className={`path__end${here ? ' path__end--here' : ''}`}>
    <span className="path__name">{name}</span>
    <span className="path__terminal">{here && <Glyph name="probe" />}</span>
    <span className="path__level">
      {level === null ? here ? 'meter' : '' : <HowText how={level.how} text={level.words} />}
    </span>
  </li>
);

/** The way of the signal through the station, and what is plugged in along it. A block is pressed to say what is in. */
export const SignalPath = ({ blocks, input, output, onPosition, locked }: SignalPathProps) => (
  <ol className="path" aria-label="Signal path">
    <End {...input} />
    {blocks.map((block) =>
      block.kind === 'amplifier' ? (
        <li key={block.key} className="path__amplifier">
          <svg viewBox="0 0 60 72" role="img" aria-label="Amplifier">
            <path d="M3 4 57 36 3 68Z" />
          </svg>
        </li>
      ) : (
        <li key={block.name} className="path__item">
          <span className="path__name">
            <Glyph name={block.plugInKind} /> {block.name}
          </span>
          <Button
            className={`path__block${block.toDb === null ? '' : ' path__block--change'}`}
            isDisabled={locked}
            onPress={() => onPosition(block.name)}
            aria-label={blockWords(block.name, block.inDb, block.toDb)}
          >
            <span className="path__value">
              {block.toDb === null ? (
                plugIn(block.inDb)
              ) : (
                <>
                  <span className="swap__from">{plugIn(block.inDb)}</span>
                  <Glyph name="arrow" />
                  <strong className="swap__to">{plugIn(block.toDb)}</strong>
                </>
              )}
            </span>
            <span className="unseen">{kindWords[block.plugInKind]}</span>
          </Button>
          {block.loss !== null && (
            <span className="path__loss">
              <HowText how={block.loss.how} text={block.loss.words} figure={block.loss.words} />
            </span>
          )}
        </li>
      ),
    )}
    <End {...output} />
  </ol>
);
