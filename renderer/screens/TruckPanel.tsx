import { useEffect, useState } from 'react';
import { day, mhz } from '../format.ts';
import { Panel } from '../parts/Panel.tsx';
import { PartTolerance } from '../parts/PartTolerance.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { Segments } from '../parts/Segments.tsx';
import { TruckGrid } from '../parts/TruckGrid.tsx';
import { UndoButtons } from '../parts/UndoButtons.tsx';
import { useUnsaved } from '../parts/unsaved.ts';
import { selectBusy, selectKit, selectTruck } from '../state/select.ts';
import { EMPTY_TRUCK, type TruckRow, truckRows, withCount, withTolerance } from '../state/truck-draft.ts';
import { useUndo } from '../state/use-undo.ts';
import { useActions, useBench, useSelected } from '../state/use-workbench.ts';
import { DialogNotice } from './DialogNotice.tsx';

const kinds: Record<TruckRow['kind'], Readonly<{ one: string; many: string }>> = {
  pad: { one: 'pad', many: 'Pads' },
  equalizer: { one: 'equalizer', many: 'Equalizers' },
  'cable-simulator': { one: 'cable simulator', many: 'Cable simulators' },
};
const rowName = ({ kind, topMhz }: TruckRow): string =>
  topMhz === null ? kinds[kind].many : `${kinds[kind].many}, ${mhz(topMhz)}`;

/** What is in the truck. Parts that are fitted at a station are moved by themselves. */
export function TruckPanel() {
  const { dialogOpened } = useActions();
  const close = () => dialogOpened({ open: 'none' });
  return (
    <Panel title="Parts in the truck" isOpen onClose={close} width="widest">
      <TruckCount onDone={close} />
    </Panel>
  );
}

function TruckCount({ onDone }: Readonly<{ onDone: () => void }>) {
  const { truck, revision, changedAt } = useSelected(selectTruck);
  const kit = useSelected(selectKit);
  const busy = useSelected(selectBusy);
  const { workbench, now } = useBench();
  // A count that was begun belongs to the revision that it was begun on.
  const { draft, say: setDraft, beginAnew, undo, redo } = useUndo(truck);
  const [of, setOf] = useState(revision);
  const [chosen, setChosen] = useState<string | null>(null);
  useEffect(() => void workbench.readKit(), [workbench]);
  if (of !== revision) {
    setOf(revision);
    beginAnew(truck);
  }
  const isChanged = JSON.stringify(draft) !== JSON.stringify(truck);
  const save = () => workbench.changeTruck(draft);
  useUnsaved({ isChanged, trouble: null, keep: save });

  const keep = async () => {
    if (!isChanged || (await save())) onDone();
  };
  const rows = truckRows(kit, draft ?? EMPTY_TRUCK);
  const row = rows.find(({ key }) => key === chosen) ?? rows[0];
  if (draft === null)
    return (
      <>
        <p>
          Nothing is counted: any value of a station’s kit may be proposed. Count what is there, and only that
          is proposed. Parts that you fit leave the truck, and those that come out go into it.
        </p>
        <DialogNotice />
        <div className="panel__end">
          {truck !== null && (
            <PressButton size="visit" isDisabled={busy === 'truck'} onPress={keep}>
              Keep no count from now on
            </PressButton>
          )}
          <PressButton rank="do" size="visit" onPress={() => setDraft(truck ?? EMPTY_TRUCK)} autoFocus>
            Count the truck
          </PressButton>
        </div>
      </>
    );
  return (
    <>
      {rows.length > 1 && (
        <Segments
          label="Kind of part"
          chosen={row?.key ?? null}
          onChoose={setChosen}
          options={rows.map((one) => ({ key: one.key, text: `${rowName(one)}: ${one.total}` }))}
        />
      )}
      {row === undefined ? (
        <p>
          No station is in the archive yet, so it is not known which values there are. Open a station file or
          the invented network; then come back and count.
        </p>
      ) : (
        <>
          <TruckGrid
            kind={row.topMhz === null ? kinds[row.kind].one : `${kinds[row.kind].one} for ${mhz(row.topMhz)}`}
            values={row.values}
            onCount={(valueDb, count) => setDraft(withCount(draft, row, valueDb, count))}
          />
          <PartTolerance
            key={row.key}
            name={rowName(row)}
            values={row.values}
            onSay={(valueDb, toleranceDb) => setDraft(withTolerance(draft, row, valueDb, toleranceDb))}
          />
        </>
      )}
      <p className="quiet">
        The value as it is printed on the part, in dB; under it how many are there. A jumper counts as 0.
        {changedAt === null ? '' : ` Last changed ${day(changedAt, now())}.`}
      </p>
      <DialogNotice />
      <div className="panel__end">
        <UndoButtons undo={undo} redo={redo} />
        <PressButton rank="quiet" onPress={() => setDraft(null)}>
          Keep no count
        </PressButton>
        <PressButton rank="do" size="visit" isDisabled={busy === 'truck'} onPress={keep}>
          That is what is there
        </PressButton>
      </div>
    </>
  );
}
