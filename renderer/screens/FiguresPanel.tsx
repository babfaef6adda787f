import { useState } from 'react';
import { Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue } from 'react-aria-components';
import type { CascadeLink } from '../../core/bridge/cascade-calls.ts';
import { levelFromNumber, levelNumber, levelWord } from '../format.ts';
import { Figure } from '../parts/Figure.tsx';
import { Panel } from '../parts/Panel.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { UndoButtons } from '../parts/UndoButtons.tsx';
import { draftOf, type FigureKey, notesOfDraft } from '../state/figures-draft.ts';
import { selectBusy, selectLevelUnit, selectStations } from '../state/select.ts';
import { useUndo } from '../state/use-undo.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';
import { DialogNotice } from './DialogNotice.tsx';

const NOBODY = ':nobody';

export type FiguresPanelProps = Readonly<{ link: CascadeLink; isOpen: boolean; onClose: () => void }>;

/** What the data sheets say of this station's amplifier and of what feeds it. */
export function FiguresPanel({ link, isOpen, onClose }: FiguresPanelProps) {
  const levelUnit = useSelected(selectLevelUnit);
  const busy = useSelected(selectBusy);
  const stations = useSelected(selectStations);
  const { changeNotes } = useWorkbench();
  const {
    draft,
    say: setDraft,
    undo,
    redo,
  } = useUndo(() => draftOf(link.notes?.amplifier, link.notes?.cascade), isOpen ? 'dialog' : 'nowhere');
  const [wrong, setWrong] = useState('');
  const say = (key: FigureKey) => (value: number | null) => setDraft({ ...draft, [key]: value });
  const others =
    stations.at === 'listed' ? stations.rows.filter(({ stationId }) => stationId !== link.station.id) : [];
  const keep = async () => {
    const change = notesOfDraft(draft);
    if ('wrong' in change) {
      setWrong(change.wrong);
      return;
    }
    setWrong('');
    if (await changeNotes(change)) onClose();
  };
  const rated = draft.ratedAtDbmv;
  return (
    <Panel title={`Figures of ${link.station.name}`} isOpen={isOpen} onClose={onClose} width="wide">
      <section className="figures" aria-label="The amplifier">
        <h3>The amplifier</h3>
        <p className="quiet">They stand in the data sheet of the module.</p>
        <div className="figures__fields">
          <Figure
            name="Noise figure"
            about="of the first stage"
            unit="dB"
            value={draft.noiseFigureDb}
            onSay={say('noiseFigureDb')}
          />
          <Figure
            name="Gain"
            about="no pad, no equalizer inside"
            unit="dB"
            value={draft.gainDb}
            onSay={say('gainDb')}
          />
          <Figure
            name="Distortion is rated at"
            about="output at the top frequency"
            unit={levelWord(levelUnit)}
            value={rated === null ? null : levelNumber(rated, levelUnit)}
            onSay={(value) => say('ratedAtDbmv')(value === null ? null : levelFromNumber(value, levelUnit))}
          />
          <Figure name="CTB" about="there" unit="dBc" value={draft.ctbDbc} onSay={say('ctbDbc')} />
          <Figure name="CSO" about="there" unit="dBc" value={draft.csoDbc} onSay={say('csoDbc')} />
          <Figure
            name="Cross modulation"
            about="where it is rated"
            unit="dBc"
            value={draft.xmodDbc}
            onSay={say('xmodDbc')}
          />
        </div>
      </section>
      <section className="figures" aria-label="What feeds it">
        <h3>What feeds it</h3>
        <Select
          className="field field--line"
          value={draft.fedBy ?? NOBODY}
          onChange={(key) =>
            setDraft({ ...draft, fedBy: key === NOBODY || key === null ? null : String(key) })
          }
        >
          <Label>Fed by the output of</Label>
          <Button className="select-button figures__fed">
            <SelectValue />
          </Button>
          <Popover className="popover">
            <ListBox className="options">
              <ListBoxItem id={NOBODY} className="option">
                a node or headend
              </ListBoxItem>
              {others.map(({ stationId, name }) => (
                <ListBoxItem key={stationId} id={stationId} textValue={name} className="option">
                  {name}
                </ListBoxItem>
              ))}
              {draft.fedBy !== null && !others.some(({ stationId }) => stationId === draft.fedBy) && (
                <ListBoxItem id={draft.fedBy} textValue={draft.fedBy} className="option">
                  {draft.fedBy}
                </ListBoxItem>
              )}
            </ListBox>
          </Popover>
        </Select>
        {draft.fedBy === null && (
          <div className="figures__fields">
            <Figure
              name="Carrier to noise"
              about="of the node or headend"
              unit="dB"
              value={draft.sourceCnrDb}
              onSay={say('sourceCnrDb')}
            />
            <Figure
              name="MER"
              about="of its modulators"
              unit="dB"
              value={draft.sourceMerDb}
              onSay={say('sourceMerDb')}
            />
            <Figure
              name="CTB"
              about="of the node or headend"
              unit="dBc"
              value={draft.sourceCtbDbc}
              onSay={say('sourceCtbDbc')}
            />
            <Figure
              name="CSO"
              about="of the node or headend"
              unit="dBc"
              value={draft.sourceCsoDbc}
              onSay={say('sourceCsoDbc')}
            />
            <Figure
              name="Stations ahead"
              about="like this one, not in the archive"
              unit=""
              value={draft.alikeAhead}
              digits={0}
              onSay={say('alikeAhead')}
            />
          </div>
        )}
      </section>
      <p className="panel__help" role="alert">
        {wrong}
      </p>
      <DialogNotice />
      <div className="panel__end">
        <UndoButtons undo={undo} redo={redo} />
        <PressButton rank="do" size="visit" onPress={keep} isDisabled={busy === 'notes'}>
          Keep these figures
        </PressButton>
      </div>
    </Panel>
  );
}
