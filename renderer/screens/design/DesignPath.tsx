import { Button, Menu, MenuItem, MenuTrigger, Popover, ToggleButton } from 'react-aria-components';
import type { PlugInKind } from '../../../core/files/station.ts';
import { bareLevel, plugIn } from '../../format.ts';
import { Glyph } from '../../parts/Glyph.tsx';
import type { PortDraft, StationDraft } from '../../state/design/draft.ts';
import type { DraftPart } from '../../state/design/made.ts';
import { selectLevelUnit } from '../../state/select.ts';
import { useSelected } from '../../state/use-workbench.ts';

export type DesignPathProps = Readonly<{
  draft: StationDraft;
  port: PortDraft;
  part: DraftPart;
  onPart: (part: DraftPart) => void;
  onAdd: (kind: PlugInKind) => void;
  /** A plug-in that is there already and on another way. */
  onShare: (key: number) => void;
}>;

const kinds: readonly Readonly<{ kind: PlugInKind; words: string }>[] = [
  { kind: 'pad', words: 'A pad' },
  { kind: 'equalizer', words: 'An equalizer' },
  { kind: 'cable-simulator', words: 'A cable simulator' },
];

const Amplifier = () => (
  <li className="path__amplifier">
    <svg viewBox="0 0 60 72" role="img" aria-label="Amplifier">
      <path d="M3 4 57 36 3 68Z" />
    </svg>
  </li>
);

/** The way of the signal as it is described: a block is pressed to say what it is, and one more is put in where the way ends. */
export function DesignPath({ draft, port, part, onPart, onAdd, onShare }: DesignPathProps) {
  const unit = useSelected(selectLevelUnit);
  const stageEnd = port.through.findLastIndex((key) => draft.stage?.through.includes(key));
  const elsewhere = draft.positions.filter(({ key }) => !port.through.includes(key));
  const add = (key: unknown) => {
    const kind = kinds.find((one) => one.kind === key);
    if (kind !== undefined) onAdd(kind.kind);
    else onShare(Number(key));
  };
  const { design } = port;
  return (
    <ol className="path path--design" aria-label="Signal path">
      <li className="path__end">
        <span className="path__name">in</span>
      </li>
      {port.through.map((key, i) => {
        const position = draft.positions.find((one) => one.key === key);
        if (position === undefined) return null;
        const isChosen = part.at === 'position' && part.key === key;
        const inWords = position.installedDb === null ? '?' : plugIn(position.installedDb);
        return [
          <li key={key} className="path__item">
            <span className="path__name">
              <Glyph name={position.kind} /> {position.name}
            </span>
            <ToggleButton
              className="path__block"
              isSelected={isChosen}
              onChange={() => onPart({ at: 'position', key })}
              aria-label={`${position.name}: ${position.installedDb === null ? 'what is in is not said yet' : `${inWords} is in`}`}
            >
              <span className="path__value">{inWords}</span>
            </ToggleButton>
          </li>,
          i === stageEnd && i < port.through.length - 1 ? <Amplifier key={`stage ${key}`} /> : null,
        ];
      })}
      <li className="path__item path__item--add">
        <span className="path__name">one more</span>
        <MenuTrigger>
          <Button className="path__block path__block--add" aria-label="Put a plug-in in">
            <Glyph name="more" />
          </Button>
          <Popover className="popover popover--menu">
            <Menu className="options" aria-label="Which plug-in" onAction={add}>
              {kinds.map(({ kind, words }) => (
                <MenuItem key={kind} id={kind} textValue={words} className="option option--glyph">
                  <Glyph name={kind} /> {words}
                </MenuItem>
              ))}
              {elsewhere.map((position) => (
                <MenuItem key={position.key} id={String(position.key)} className="option">
                  {`The ${position.name} that is there`}
                </MenuItem>
              ))}
            </Menu>
          </Popover>
        </MenuTrigger>
      </li>
      {(design !== null || port.through.length > 0) && <Amplifier />}
      <li className="path__item">
        <span className="path__name">{port.name}</span>
        <ToggleButton
          className="path__block path__block--end"
          isSelected={part.at === 'port'}
          onChange={() => onPart({ at: 'port', key: port.key })}
          aria-label={`${port.name}: its design`}
        >
          <span className="path__value">
            {design === null
              ? 'no design'
              : design.lowDbmv === null || design.highDbmv === null
                ? '?'
                : `${bareLevel(design.lowDbmv, unit)} … ${bareLevel(design.highDbmv, unit)}`}
          </span>
        </ToggleButton>
      </li>
    </ol>
  );
}
