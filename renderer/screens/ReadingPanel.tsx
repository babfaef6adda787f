import { useEffect, useRef, useState } from 'react';
import { ProgressBar } from 'react-aria-components';
import { bareMhz, counted, duration } from '../format.ts';
import { PressButton } from '../parts/PressButton.tsx';
import type { Run } from '../state/run-slice.ts';
import { useBench } from '../state/use-workbench.ts';

export type ReadingPanelProps = Readonly<{ run: Exclude<Run, { at: 'idle' } | { at: 'cut-short' }> }>;

/** The words beside the running sweep change four times a second at most, however fast the meter is. */
const REFRESH_MS = 250;

export function ReadingPanel({ run }: ReadingPanelProps) {
  const { feed, workbench } = useBench();
  const [count, setCount] = useState(() => feed.readings().length);
  const [leftMs, setLeftMs] = useState<number | null>(null);
  const [atMhz, setAtMhz] = useState<number | null>(null);
  const begun = useRef({ at: 0, count: 0 });
  const planned = run.plan.plannedCount;

  useEffect(() => {
    begun.current = { at: performance.now(), count: feed.readings().length };
    const timer = setInterval(() => {
      const readings = feed.readings();
      const since = performance.now() - begun.current.at;
      const came = readings.length - begun.current.count;
      setCount(readings.length);
      setAtMhz(readings.at(-1)?.frequencyMhz ?? null);
      setLeftMs(came < 4 ? null : (since / came) * (planned - readings.length));
    }, REFRESH_MS);
    return () => clearInterval(timer);
  }, [feed, planned]);

  return (
    <>
      <p className="lead">{`Reading, ${run.plan.portName}`}</p>
      <p className="count">
        {count}
        <small>{`of ${counted(planned, 'channel', 'channels')}`}</small>
      </p>
      <ProgressBar className="progress" aria-label="Channels read" value={count} maxValue={planned}>
        {({ percentage }) => (
          <svg className="progress__bar" viewBox="0 0 100 4" preserveAspectRatio="none" aria-hidden="true">
            <rect width="100" height="4" className="progress__way" />
            <rect width={percentage ?? 0} height="4" className="progress__done" />
          </svg>
        )}
      </ProgressBar>
      <p className="reading-now">
        <span>{atMhz === null ? 'waiting for the first reading' : `at ${bareMhz(atMhz)} MHz`}</span>
        <span>{leftMs === null ? '' : `about ${duration(leftMs)} left`}</span>
      </p>
      <p className="quiet">
        Each reading is on disk before it is drawn. Stopping keeps what is there, marked partial.
      </p>
      <div className="acts">
        <PressButton
          size="visit"
          onPress={() => workbench.stopSweep()}
          isDisabled={run.at !== 'running'}
          autoFocus
        >
          {run.at === 'stopping' ? 'Stopping' : 'Stop'}
        </PressButton>
      </div>
    </>
  );
}
