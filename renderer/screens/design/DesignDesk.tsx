import { useEffect, useRef, useState } from 'react';
import { Button, Input, Label, TextField } from 'react-aria-components';
import type { StationSheet } from '../../../core/bridge/records.ts';
import { Glyph } from '../../parts/Glyph.tsx';
import { useLeave, useUnsaved } from '../../parts/unsaved.ts';
import { saveFile } from '../../save-file.ts';
import { WRITTEN_HERE } from '../../state/design/commands.ts';
import type { StationDraft } from '../../state/design/draft.ts';
import { withAdded, withPort } from '../../state/design/edits.ts';
import { type DraftPart, idOf, type Lack, lacksOf, stationOf } from '../../state/design/made.ts';
import { useUndo } from '../../state/use-undo.ts';
import { useActions, useWorkbench } from '../../state/use-workbench.ts';
import { BarEnd } from '../BarEnd.tsx';
import { DesignExtras } from './DesignExtras.tsx';
import { DesignFoot } from './DesignFoot.tsx';
import { DesignPart } from './DesignPart.tsx';
import { DesignPath } from './DesignPath.tsx';
import { DesignPorts } from './DesignPorts.tsx';
import { DesignView } from './DesignView.tsx';
import { InService } from './InService.tsx';

export type DesignDeskProps = Readonly<{
  first: StationDraft;
  /** The station whose design is changed; null for a new one. */
  of: StationSheet | null;
}>;

const titles: Record<DraftPart['at'], string> = {
  name: 'The port',
  port: 'The port',
  position: 'The plug-in',
  stage: 'Into the first stage',
  span: 'The span in front',
  'gain-control': 'The gain control',
};

/** The desk at which a station is drawn: its way as a picture, what is chosen in it beside, and what is still to say below. */
export function DesignDesk({ first, of }: DesignDeskProps) {
  const { addStation, exportStation, keepDesign } = useWorkbench();
  const { designWent } = useActions();
  const leave = useLeave();
  const { draft, say, undo, redo } = useUndo(first, 'page');
  const [portKey, setPortKey] = useState(first.ports[0]?.key ?? 0);
  const [part, setPart] = useState<DraftPart>({ at: 'port', key: portKey });
  const nameField = useRef<HTMLInputElement>(null);
  const side = useRef<HTMLElement>(null);
  const [asks, setAsks] = useState(false);
  const [sought, setSought] = useState(0);
  // Who asks what is missing wants to type it next.
  useEffect(() => {
    if (sought === 0) return;
    const fields = side.current?.querySelectorAll<HTMLInputElement>('input:not([type="checkbox"])') ?? [];
    [...fields].find(({ value }) => value === '')?.focus();
  }, [sought]);
  // What an undo took away can't be looked at any more.
  const port = draft.ports.find(({ key }) => key === portKey) ?? draft.ports[0];
  const lacks = lacksOf(draft);
  const isChanged = JSON.stringify(draft) !== JSON.stringify(first);
  const keep = async (): Promise<boolean> => {
    const made = stationOf(draft);
    if ('lacks' in made) {
      goTo(made.lacks[0]);
      return false;
    }
    const { station } = made;
    return of === null
      ? addStation(station)
      : keepDesign({
          station,
          fileName: WRITTEN_HERE,
          text: `The design of ${station.name} is kept.`,
          backText: `The design of ${station.name} is what it was.`,
        });
  };
  useUnsaved({
    isChanged,
    trouble: lacks[0] === undefined ? null : `Still to say: ${lacks[0].words}.`,
    keep,
  });
  if (port === undefined) return null;
  function goTo({ part: to }: Lack): void {
    if (to.at === 'name') nameField.current?.focus();
    else setSought((before) => before + 1);
    if (to.at === 'port') setPortKey(to.key);
    if (to.at === 'position') {
      const way = draft.ports.find(({ through }) => through.includes(to.key));
      if (way !== undefined) setPortKey(way.key);
    }
    setPart(to);
  }
  const saveItsFile = async (stationId: string) => {
    const file = await exportStation(stationId);
    if (file !== null) saveFile(file.fileName, file.text);
  };
  const close = () => designWent({ at: 'closed' });
  return (
    <div className="sheet design">
      <header className="bar bar--station">
        <Button
          className="bar__back"
          aria-label={of === null ? 'Back to the stations' : `Back to ${of.station.name}`}
          onPress={() => leave(close)}
        >
          <Glyph name="back" />
        </Button>
        <h1 className="bar__place">
          <span className="bar__name">
            {of === null ? 'A new station' : `The design of ${of.station.name}`}
          </span>
        </h1>
        <BarEnd />
      </header>
      <main className="design__main">
        <div className="design__names">
          <TextField
            className="field design__name"
            value={draft.name}
            maxLength={120}
            autoFocus={of === null}
            onChange={(name) => say({ ...draft, name }, 'station name')}
          >
            <Label>Name of the station</Label>
            <Input ref={nameField} autoComplete="off" spellCheck="false" />
          </TextField>
          <TextField
            className="field design__id"
            value={idOf(draft)}
            maxLength={120}
            isDisabled={of !== null}
            onChange={(id) => say({ ...draft, id }, 'station id')}
          >
            <Label>Id: the same one means the same station on every laptop</Label>
            <Input autoComplete="off" spellCheck="false" />
          </TextField>
        </div>
        <DesignPorts
          draft={draft}
          portKey={port.key}
          onChange={say}
          onChoose={(key) => {
            setPortKey(key);
            setPart({ at: 'port', key });
          }}
        />
        <DesignPath
          draft={draft}
          port={port}
          part={part}
          onPart={setPart}
          onAdd={(kind) => {
            const at = part.at === 'position' ? port.through.indexOf(part.key) + 1 : port.through.length;
            const added = withAdded(draft, port.key, at === 0 ? port.through.length : at, kind);
            say(added.draft, `added ${added.key}`);
            setPart({ at: 'position', key: added.key });
          }}
          onShare={(key) => {
            say(withPort(draft, port.key, { through: [...port.through, key] }), `shared ${key}`);
            setPart({ at: 'position', key });
          }}
        />
        <DesignView port={port} />
        <DesignExtras draft={draft} part={part} onPart={setPart} onChange={say} />
      </main>
      <aside ref={side} className="side design__side" aria-label={titles[part.at]}>
        <h2>{titles[part.at]}</h2>
        <DesignPart
          key={JSON.stringify(part)}
          draft={draft}
          part={part}
          portKey={port.key}
          readPorts={new Set(of?.sweeps.map(({ portName }) => portName))}
          onPart={setPart}
          onChange={say}
        />
      </aside>
      <DesignFoot
        lacks={lacks}
        undo={undo}
        redo={redo}
        onShow={goTo}
        kept={
          of === null
            ? null
            : {
                onLike: () => leave(() => designWent({ at: 'new', like: of.station })),
                onService: () => leave(() => setAsks(true)),
                onFile: isChanged ? null : () => void saveItsFile(of.station.id),
              }
        }
        onKeep={async () => {
          if (await keep()) close();
        }}
      />
      {asks && of !== null && <InService name={of.station.name} onClose={() => setAsks(false)} />}
    </div>
  );
}
