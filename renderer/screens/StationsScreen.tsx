import { type ReactNode, useMemo } from 'react';
import { DropZone, type FileDropItem, FileTrigger, Input, Label, SearchField } from 'react-aria-components';
import type { StationRow } from '../../core/bridge/records.ts';
import { whole } from '../format.ts';
import { PressButton } from '../parts/PressButton.tsx';
import { StationList } from '../parts/StationList.tsx';
import { foundStations, inServiceFirst } from '../state/found-stations.ts';
import { selectBusy, selectLink, selectStations, selectStationsText } from '../state/select.ts';
import type { Waiting } from '../state/stations-slice.ts';
import { useActions, useBench, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { BarEnd } from './BarEnd.tsx';
import { FirstStart } from './FirstStart.tsx';

/** More than these are looked for by typing; and of more than LONG only those in sight are drawn. */
const FEW = 12;
const LONG = 60;

export function StationsScreen() {
  const stations = useSelected(selectStations);
  const busy = useSelected(selectBusy);
  const workbench = useWorkbench();
  const { designWent } = useActions();

  const takeIn = async (files: Iterable<File>) => {
    for (const file of files) await workbench.importStation(file.name, await file.text());
  };
  const openFile = (
    <FileTrigger
      acceptedFileTypes={['.json', 'application/json']}
      onSelect={(files) => files && takeIn(files)}
    >
      <PressButton size="visit">Open a station file</PressButton>
    </FileTrigger>
  );

  const describe = (
    <PressButton size="visit" onPress={() => designWent({ at: 'new', like: null })}>
      New station
    </PressButton>
  );
  const others = (
    <PressButton size="visit" onPress={() => workbench.openTransfer()}>
      Other laptops
    </PressButton>
  );

  return (
    <DropZone
      className="stations-page"
      aria-label="Stations; a station file may be dropped here"
      onDrop={async (event) => {
        const dropped = event.items.filter((item): item is FileDropItem => item.kind === 'file');
        await takeIn(await Promise.all(dropped.map((item) => item.getFile())));
      }}
    >
      <header className="bar">
        <p className="bar__place">
          <span className="bar__name">Tiltwright</span>
        </p>
        <BarEnd />
      </header>
      {stations.at === 'loading' && (
        <main className="plain-page" aria-busy="true">
          <p className="quiet">Reading the stations.</p>
        </main>
      )}
      {stations.at === 'failed' && (
        <main className="plain-page">
          <h1>The stations could not be read.</h1>
          <p>{stations.help}</p>
          <PressButton rank="do" size="visit" onPress={() => void workbench.arrive()} autoFocus>
            Try again
          </PressButton>
        </main>
      )}
      {stations.at === 'listed' && stations.rows.length === 0 && (
        <FirstStart
          onDemo={() => workbench.loadDemo()}
          isLoading={busy === 'demo'}
          openFile={
            <>
              {describe}
              {openFile}
            </>
          }
          others={others}
        />
      )}
      {stations.at === 'listed' && stations.rows.length > 0 && (
        <Listed rows={stations.rows} waiting={stations.waiting}>
          <PressButton size="visit" onPress={() => workbench.openRecords()}>
            All records
          </PressButton>
          {others}
          {openFile}
          {describe}
        </Listed>
      )}
    </DropZone>
  );
}

type ListedProps = Readonly<{ rows: readonly StationRow[]; waiting: Waiting; children: ReactNode }>;

/** The stations there are, and a field to find one by where they are many. */
function Listed({ rows, waiting, children }: ListedProps) {
  const text = useSelected(selectStationsText);
  const link = useSelected(selectLink);
  const { now } = useBench();
  const { stationsTyped } = useActions();
  const workbench = useWorkbench();
  const isMany = rows.length > FEW;
  const found = useMemo(
    () => inServiceFirst(isMany ? foundStations(rows, text) : rows),
    [isMany, rows, text],
  );
  const isLong = rows.length > LONG;
  const named = `${whole(rows.length)} ${rows.length === 1 ? 'station' : 'stations'}`;
  return (
    <main className={`stations${isLong ? ' stations--long' : ''}`}>
      <div className="stations__head">
        <h1>{found.length === rows.length ? named : `${whole(found.length)} of ${named}`}</h1>
        {isMany && (
          <SearchField className="field field--line stations__find" value={text} onChange={stationsTyped}>
            <Label>Find</Label>
            <Input placeholder="name or finding" />
          </SearchField>
        )}
        <div className="stations__ways">{children}</div>
      </div>
      {found.length === 0 ? (
        <div className="stations__none">
          <p>No station has these words.</p>
          <PressButton size="visit" onPress={() => stationsTyped('')}>
            Show all
          </PressButton>
        </div>
      ) : (
        <StationList
          rows={found}
          isLong={isLong}
          waiting={waiting.ids}
          now={now()}
          onOpen={(stationId) => workbench.openStation(stationId)}
        />
      )}
      {link.at === 'open' && (
        <div className="stations__foot">
          <p>Kept in {link.archivePath}</p>
          <JudgedSoFar waiting={waiting} />
        </div>
      )}
    </main>
  );
}

/** How far the list is where every station has to be judged; at its foot, so that nothing moves under a hand when it is done. */
function JudgedSoFar({ waiting }: Readonly<{ waiting: Waiting }>) {
  if (waiting.of === 0) return null;
  const done = waiting.of - waiting.ids.size;
  return (
    <div className="stations__judged">
      <span>
        Judging the newest sweeps, as after an update or with other settings: {whole(done)} of{' '}
        {whole(waiting.of)}
      </span>
      <progress aria-label="Stations judged" max={waiting.of} value={done} />
    </div>
  );
}
