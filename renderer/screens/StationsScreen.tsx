import { DropZone, type FileDropItem, FileTrigger } from 'react-aria-components';
import { counted } from '../format.ts';
import { PressButton } from '../parts/PressButton.tsx';
import { StationList } from '../parts/StationList.tsx';
import { selectBusy, selectLink, selectStations } from '../state/select.ts';
import { useBench, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { BarEnd } from './BarEnd.tsx';
import { FirstStart } from './FirstStart.tsx';

/** More than these make a page slow that draws every row; the table of all records has any number. */
const MOST_LISTED = 200;

export function StationsScreen() {
  const stations = useSelected(selectStations);
  const busy = useSelected(selectBusy);
  const link = useSelected(selectLink);
  const { now } = useBench();
  const workbench = useWorkbench();

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
      {stations.at === 'loading' && <main className="plain-page" aria-busy="true" />}
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
          openFile={openFile}
          others={others}
        />
      )}
      {stations.at === 'listed' && stations.rows.length > 0 && (
        <main className="stations">
          <div className="stations__head">
            <h1>{counted(stations.rows.length, 'station', 'stations')}</h1>
            <div className="stations__ways">
              <PressButton size="visit" onPress={() => workbench.openRecords()}>
                All records
              </PressButton>
              {others}
              {openFile}
            </div>
          </div>
          <StationList
            rows={stations.rows.slice(0, MOST_LISTED)}
            now={now()}
            onOpen={(stationId) => workbench.openStation(stationId)}
          />
          {stations.rows.length > MOST_LISTED && (
            <p className="stations__foot">{`The first ${MOST_LISTED} are listed here. All records has every one of the ${stations.rows.length}, with a field to find it by.`}</p>
          )}
          {link.at === 'open' && <p className="stations__foot">Kept in {link.archivePath}</p>}
        </main>
      )}
    </DropZone>
  );
}
