import { useMemo, useState } from 'react';
import type { StationHistory } from '../../../core/bridge/quality-calls.ts';
import type { Sweep } from '../../../core/bridge/records.ts';
import type { ComparedRow } from '../../../core/drift/compare-sweeps.ts';
import type { Port } from '../../../core/files/station.ts';
import { ComparePicture } from '../../charts/ComparePicture.tsx';
import { bareLevel, bareMhz, levelWord, mhz, signedDb, signedDecimal } from '../../format.ts';
import { Segments } from '../../parts/Segments.tsx';
import { comparison } from '../../state/quality-view.ts';
import { dayWords } from '../../state/quality-words.ts';
import { selectLevelUnit } from '../../state/select.ts';
import { useSelected } from '../../state/use-workbench.ts';

export type ComparePanelProps = Readonly<{
  history: StationHistory;
  port: Port;
  earlier: Sweep;
  later: Sweep;
}>;

/** Two sweeps: how they differ over the band, and channel by channel. */
export function ComparePanel({ history, port, earlier, later }: ComparePanelProps) {
  const [face, setFace] = useState<'curve' | 'channels'>('curve');
  const result = useMemo(() => comparison(history, port, earlier, later), [history, port, earlier, later]);
  const days = [earlier, later].map(({ summary }) => dayWords(Date.parse(summary.startedAt)));
  if (!result.ok)
    return (
      <section className="history__part">
        <p className="history__words">{`${result.where}: ${result.help}`}</p>
      </section>
    );
  const { rows, meanDb, tiltDb, worst, comparedCount } = result.value;
  const explained = rows.some(({ weatherDb }) => weatherDb !== null);
  const words = `${days[1]} less ${days[0]}: ${signedDb(meanDb)} in the mean of ${comparedCount} channels, ${signedDb(tiltDb)} of tilt, most at ${mhz(worst.frequencyMhz)} with ${signedDb(worst.differenceDb)}.`;
  return (
    <section className="history__part" aria-label="Two sweeps compared">
      <div className="history__choose">
        <Segments
          label="Show"
          options={[
            { key: 'curve' as const, text: 'Curve' },
            { key: 'channels' as const, text: 'Channels' },
          ]}
          chosen={face}
          onChoose={setFace}
        />
        <p className="history__words">
          <strong>{words}</strong>{' '}
          {explained
            ? 'Dotted: what the two temperatures explain by the span and the gain control.'
            : 'What the temperatures explain cannot be told: it takes a span in the station file and both temperatures.'}
        </p>
      </div>
      {face === 'curve' ? <ComparePicture title={words} rows={rows} /> : <Channels rows={rows} days={days} />}
    </section>
  );
}

type ChannelsProps = Readonly<{ rows: readonly ComparedRow[]; days: readonly string[] }>;

function Channels({ rows, days }: ChannelsProps) {
  const unit = useSelected(selectLevelUnit);
  const shown = (levelDbmv: number | null) => (levelDbmv === null ? '\u2013' : bareLevel(levelDbmv, unit));
  return (
    <section className="compare__channels" aria-label="Channels">
      <table className="numbers">
        <thead>
          <tr>
            <th scope="col">MHz</th>
            <th scope="col">{`${days[0] ?? ''}, ${levelWord(unit)}`}</th>
            <th scope="col">{`${days[1] ?? ''}, ${levelWord(unit)}`}</th>
            <th scope="col">Difference, dB</th>
            <th scope="col">By the weather, dB</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.frequencyMhz}>
              <th scope="row">{bareMhz(row.frequencyMhz)}</th>
              <td>{shown(row.earlierDbmv)}</td>
              <td>{shown(row.laterDbmv)}</td>
              <td>{row.differenceDb === null ? '\u2013' : signedDecimal(row.differenceDb)}</td>
              <td>{row.weatherDb === null ? '\u2013' : signedDecimal(row.weatherDb)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
