import { useEffect, useState } from 'react';
import { ProgressBar } from 'react-aria-components';
import { bareMhz, counted, duration } from '../format.ts';
import { Mark } from '../parts/Mark.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import type { Hold, Run } from '../state/run-slice.ts';
import { useBench } from '../state/use-workbench.ts';

export type ReadingPanelProps = Readonly<{ run: Exclude<Run, { at: 'idle' } | { at: 'cut-short' }> }>;

const STILL_MOVING: Hold = { by: 'nothing' };

/** The words beside the running sweep change four times a second at most, however fast the meter is. */
const REFRESH_MS = 250;

export function ReadingPanel({ run }: ReadingPanelProps) {
  const { feed, workbench } = useBench();
  const [count, setCount] = useState(() => feed.readings().length);
  const [leftMs, setLeftMs] = useState<number | null>(null);
  const [atMhz, setAtMhz] = useState<number | null>(null);
  const { plannedCount: planned, repeats = 1 } = run.plan;
  const hold: Hold = run.at === 'running' ? run.hold : STILL_MOVING;
  const moving = hold.by === 'nothing';

  useEffect(() => {
    if (!moving) return undefined;
    const timer = setInterval(() => {
      const readings = feed.readings();
      setCount(readings.length);
      setAtMhz(readings.at(-1)?.frequencyMhz ?? null);
      setLeftMs(feed.leftMs());
    }, REFRESH_MS);
    return () => clearInterval(timer);
  }, [feed, moving]);

  return (
    <>
      <h1 className="lead">{`Reading, ${run.plan.portName}`}</h1>
      <p className="count">
        {count}
        <small>
          {`of ${counted(planned, 'channel', 'channels')}`}
          {repeats > 1 && `, each the mean of ${repeats}`}
        </small>
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
        <span>
          {hold.by === 'hand' ? 'paused' : leftMs === null || !moving ? '' : `about ${duration(leftMs)} left`}
        </span>
      </p>
      {hold.by === 'link' && (
        <div className="said said--bad" role="status">
          <Mark verdict="fail" pointing="up" />
          <span>
            <strong>The meter is gone; it is looked for.</strong> {hold.why} Plug it in again within half a
            minute, and the sweep goes on where it stopped.
          </span>
        </div>
      )}
      <p className="quiet">
        Each reading is on disk before it is drawn. Stopping keeps what is there, marked partial.
      </p>
      <div className="acts acts--pair">
        <PressButton
          size="visit"
          onPress={() => workbench.stopSweep()}
          isDisabled={run.at !== 'running'}
          autoFocus
        >
          {run.at === 'stopping' ? 'Stopping' : 'Stop'}
        </PressButton>
        {hold.by !== 'link' && (
          <PressButton
            size="visit"
            onPress={() => workbench.pauseSweep(hold.by === 'nothing')}
            isDisabled={run.at !== 'running'}
          >
            {hold.by === 'hand' ? 'Go on' : 'Pause'}
          </PressButton>
        )}
      </div>
    </>
  );
}
