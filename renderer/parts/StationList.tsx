import { GridList, GridListItem, ListLayout, Virtualizer } from 'react-aria-components';
import type { StationRow } from '../../core/bridge/records.ts';
import { asWritten, counted, day, mhz, sizeDb } from '../format.ts';
import { howStationWorst } from '../how/stations.ts';
import { HowText } from './HowText.tsx';
import { Mark, type Verdict } from './Mark.tsx';
import { OUT_OF_SERVICE } from './service-words.ts';

export type StationListProps = Readonly<{
  rows: readonly StationRow[];
  /** So many that only those in sight are drawn; the list then scrolls in a frame of its own. */
  isLong: boolean;
  /** The stations whose standing is still being worked out; none where it is left out. */
  waiting?: ReadonlySet<string>;
  now: string;
  onOpen: (stationId: string) => void;
}>;

const NOBODY: ReadonlySet<string> = new Set();

const words: Record<Verdict, string> = {
  pass: 'in order',
  fail: 'needs work',
  undecided: 'undecided',
  unknown: 'not yet read',
};

/** The verdict stands over it already. */
const besideVerdict = (headline: string): string => headline.replace(/^Undecided: /, '');

/** What a row is taken to be high before it was seen, CSS pixels. */
const ROW_SEEMS = 85;
const layout = { estimatedRowSize: ROW_SEEMS };

/** The stations and how each stood at its newest sweep. Arrow keys walk it, Enter opens. */
export function StationList({ rows, isLong, waiting = NOBODY, now, onOpen }: StationListProps) {
  const list = (
    <GridList
      className="station-list"
      aria-label="Stations"
      selectionMode="none"
      items={rows}
      dependencies={[now, waiting]}
      onAction={(key) => onOpen(String(key))}
      autoFocus="first"
    >
      {(row) => (
        <GridListItem id={row.stationId} textValue={row.name} className="station-row">
          <Cells row={row} isWaiting={waiting.has(row.stationId)} now={now} />
        </GridListItem>
      )}
    </GridList>
  );
  if (!isLong) return list;
  return (
    <Virtualizer layout={ListLayout} layoutOptions={layout}>
      {list}
    </Virtualizer>
  );
}

function Cells({ row, isWaiting, now }: Readonly<{ row: StationRow; isWaiting: boolean; now: string }>) {
  const { standing } = row;
  const isAway = row.outOfService !== undefined;
  const verdict = isAway ? 'unknown' : (standing?.verdict ?? 'unknown');
  const low = standing?.worstDb !== null && standing?.worstDb !== undefined && standing.worstDb < 0;
  return (
    <>
      <Mark verdict={verdict} pointing={low ? 'down' : 'up'} size="large" />
      <span className="station-row__name">{row.name}</span>
      <span className="station-row__words">
        <span className={`station-row__verdict station-row__verdict--${verdict}`}>
          {isAway ? OUT_OF_SERVICE : isWaiting ? 'being judged' : words[verdict]}
        </span>
        {isAway && <span className="station-row__headline">{row.outOfService}</span>}
        {!isAway && standing !== null && (
          <span className="station-row__headline">{asWritten(besideVerdict(standing.headline))}</span>
        )}
      </span>
      <span className="station-row__worst">
        {!isAway && standing?.worstDb !== null && standing?.worstDb !== undefined && (
          <>
            <strong>
              <HowText
                how={howStationWorst(row.name, standing, standing.worstDb)}
                text={sizeDb(standing.worstDb)}
              />
            </strong>
            <small>{standing.worstMhz === null ? '' : `worst, at ${mhz(standing.worstMhz)}`}</small>
          </>
        )}
      </span>
      <span className="station-row__when">
        {standing === null ? '' : day(standing.at, now)}
        <small>
          {row.sweepCount === 0 ? '' : counted(row.sweepCount, 'sweep', 'sweeps')}
          {row.openVisit ? ', visit open' : ''}
        </small>
      </span>
    </>
  );
}
