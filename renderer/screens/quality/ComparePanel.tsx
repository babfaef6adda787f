import { useMemo } from 'react';
import type { StationHistory } from '../../../core/bridge/quality-calls.ts';
import type { Sweep } from '../../../core/bridge/records.ts';
import type { Port } from '../../../core/files/station.ts';
import { ComparePicture } from '../../charts/ComparePicture.tsx';
import { mhz, signedDb } from '../../format.ts';
import { howDifference } from '../../how/records.ts';
import { Guard } from '../../parts/Guard.tsx';
import { HowText } from '../../parts/HowText.tsx';
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

const dayOf = ({ summary }: Sweep): string => dayWords(Date.parse(summary.startedAt));

/** Two sweeps: how they differ over the band, and channel by channel. */
export function ComparePanel({ history, port, earlier, later }: ComparePanelProps) {
  const unit = useSelected(selectLevelUnit);
  const result = useMemo(() => comparison(history, port, earlier, later), [history, port, earlier, later]);
  const days = useMemo(() => [dayOf(earlier), dayOf(later)] as const, [earlier, later]);
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
    <section className="history__part history__part--compared" aria-label="Two sweeps compared">
      <Guard
        fallback={<p className="history__words">The two cannot be drawn.</p>}
        resetKey={`${earlier.summary.sweepId} ${later.summary.sweepId}`}
      >
        <ComparePicture
          title={`${days[1]} less ${days[0]}, dB`}
          about={`${history.station.name}, ${history.portName}`}
          rows={rows}
          days={days}
          unit={unit}
          tools={
            <p className="history__words">
              <strong>
                <HowText
                  how={howDifference(`${days[1]} less ${days[0]}`, result.value)}
                  text={words}
                  figure={`${signedDb(meanDb)} in the mean`}
                />
              </strong>{' '}
              {explained
                ? 'Dotted: what the two temperatures explain by the span and the gain control.'
                : 'What the temperatures explain cannot be told: it takes a span in the station file and both temperatures.'}
            </p>
          }
        />
      </Guard>
    </section>
  );
}
