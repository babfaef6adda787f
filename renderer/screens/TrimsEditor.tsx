import { Input, Label, TextField } from 'react-aria-components';
import type { Port } from '../../core/files/station.ts';
import type { Trim } from '../../core/files/station-notes.ts';
import { PressButton } from '../parts/PressButton.tsx';
import { Quantity } from '../parts/Quantity.tsx';
import { Segments } from '../parts/Segments.tsx';
import { UndoButtons } from '../parts/UndoButtons.tsx';
import { useUnsaved } from '../parts/unsaved.ts';
import { selectBusy, selectNotes } from '../state/select.ts';
import { useUndo } from '../state/use-undo.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';

export type TrimsEditorProps = Readonly<{ port: Port; onDone: () => void }>;

const MOST = 4;
const NONE: readonly Trim[] = [];

/** The continuous trims of a station and how far each can still be turned: proposed once the plug-ins are in. */
export function TrimsEditor({ port, onDone }: TrimsEditorProps) {
  const stored = useSelected(selectNotes)?.notes?.trims ?? NONE;
  const busy = useSelected(selectBusy);
  const { changeNotes } = useWorkbench();
  // A key of its own for each row: names are typed, and places move when one is removed.
  const { draft: rows, say: setRows, undo, redo } = useUndo(() => stored.map((trim, key) => ({ key, trim })));
  const trims = rows.map(({ trim }) => trim);
  const change = (at: number, over: Partial<Trim>) =>
    setRows(
      rows.map((row) => (row.key === at ? { ...row, trim: { ...row.trim, ...over } } : row)),
      'name' in over ? `name ${at}` : undefined,
    );
  const add = () => {
    const usual = ['gain trim', 'slope trim', 'third trim', 'fourth trim'];
    const name = usual.find((one) => !trims.some((trim) => trim.name === one)) ?? `trim ${trims.length + 1}`;
    const trim: Trim = {
      name,
      kind: trims.length === 0 ? 'gain' : 'slope',
      rangeDb: [-2, 2],
      atMhz: port.design?.highMhz ?? 870,
      port: port.name,
    };
    setRows([...rows, { key: Math.max(-1, ...rows.map(({ key }) => key)) + 1, trim }]);
  };
  const save = () => changeNotes({ trims: trims.length === 0 ? undefined : [...trims] });
  useUnsaved({
    isChanged: JSON.stringify(trims) !== JSON.stringify(stored),
    trouble: null,
    keep: save,
  });
  const keep = async () => {
    if (await save()) onDone();
  };
  return (
    <div className="trims">
      <p>
        A trim is turned after the plug-ins are in, at the frequency where it has its full effect. Say how far
        it can still go from where it stands.
      </p>
      {rows.map(({ key, trim }) => (
        <fieldset key={key} className="trim">
          <legend className="unseen">{trim.name}</legend>
          <div className="trim__row">
            <TextField
              className="trim__name"
              value={trim.name}
              maxLength={60}
              onChange={(name) => change(key, { name })}
            >
              <Label className="unseen">Name of the trim</Label>
              <Input />
            </TextField>
            <Segments
              label={`${trim.name} changes`}
              chosen={trim.kind}
              onChoose={(kind) => change(key, { kind })}
              options={[
                { key: 'gain', text: 'Gain' },
                { key: 'slope', text: 'Slope' },
              ]}
            />
            <PressButton rank="quiet" onPress={() => setRows(rows.filter((row) => row.key !== key))}>
              Remove
            </PressButton>
          </div>
          <div className="trim__row">
            <Quantity
              name="Down by"
              unit="dB"
              value={-trim.rangeDb[0]}
              from={0}
              to={60}
              digits={1}
              onChange={(downDb) => change(key, { rangeDb: [downDb === 0 ? 0 : -downDb, trim.rangeDb[1]] })}
            />
            <Quantity
              name="Up by"
              unit="dB"
              value={trim.rangeDb[1]}
              from={0}
              to={60}
              digits={1}
              onChange={(upDb) => change(key, { rangeDb: [trim.rangeDb[0], upDb] })}
            />
            <Quantity
              name="Read at"
              unit="MHz"
              value={trim.atMhz}
              from={1}
              to={3000}
              onChange={(atMhz) => change(key, { atMhz })}
            />
          </div>
        </fieldset>
      ))}
      <div className="panel__end">
        <UndoButtons undo={undo} redo={redo} />
        {trims.length < MOST && (
          <PressButton onPress={add}>
            {trims.length === 0 ? 'This station has a trim' : 'And another'}
          </PressButton>
        )}
        <PressButton
          rank="do"
          size="visit"
          onPress={keep}
          isDisabled={busy === 'notes' || (trims.length === 0 && stored.length === 0)}
        >
          Propose with these
        </PressButton>
      </div>
    </div>
  );
}
