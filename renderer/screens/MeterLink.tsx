import { useEffect, useState } from 'react';
import { Input, Label, TextField } from 'react-aria-components';
import type { LinkHealth } from '../../core/bridge/meter-calls.ts';
import { decimals, duration } from '../format.ts';
import { Mark } from '../parts/Mark.tsx';
import { numbered } from '../parts/numbered.ts';
import { PressButton } from '../parts/PressButton.tsx';
import { selectBusy, selectMeter } from '../state/select.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';
import { DialogNotice } from './DialogNotice.tsx';

const LOOK_EVERY_MS = 500;
const way = { said: 'said', heard: 'heard', 'gave-up': 'silent' } as const;

/** How the link is, looked at twice a second, the last lines that went over it, and the day on the meter's sticker. */
export function MeterLink() {
  const { meterDesk } = useWorkbench();
  const meter = useSelected(selectMeter);
  const [health, setHealth] = useState<LinkHealth | null>(null);
  useEffect(() => {
    let wanted = true;
    const look = () => void meterDesk.health().then((found) => wanted && setHealth(found));
    look();
    const timer = setInterval(look, LOOK_EVERY_MS);
    return () => {
      wanted = false;
      clearInterval(timer);
    };
  }, [meterDesk]);
  const facts = factsOf(health);
  return (
    <>
      <dl className="link-health">
        {facts.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {health?.lastProblem != null && (
        <p>
          <Mark verdict="undecided" /> Last problem: {health.lastProblem}
        </p>
      )}
      <section aria-label="Last lines of traffic">
        <h3>Last lines, the newest first</h3>
        {health === null || health.traffic.length === 0 ? (
          <p className="quiet">Nothing went over the link yet.</p>
        ) : (
          <Traffic lines={health.traffic} />
        )}
      </section>
      {meter.at === 'connected' && <Sticker key={meter.meter.identity.calibrationDueOn ?? ''} />}
      <DialogNotice />
    </>
  );
}

function factsOf(health: LinkHealth | null): readonly (readonly [string, string])[] {
  const pace = health?.readingsPerSecond ?? null;
  const ago = health?.lastAnswerAgoMs ?? null;
  const errors = (health?.unansweredCount ?? 0) + (health?.breakCount ?? 0);
  return [
    ['On', health?.where ?? 'none'],
    ['Readings a second', pace === null ? 'at rest' : decimals(pace, pace < 10 ? 1 : 0)],
    ['Readings', String(health?.readingCount ?? 0)],
    [
      'Errors',
      errors === 0
        ? 'none'
        : `${health?.unansweredCount ?? 0} unanswered, ${health?.breakCount ?? 0} broken off`,
    ],
    ['Last answer', ago === null ? 'none yet' : ago < 1000 ? 'just now' : `${duration(ago)} ago`],
  ];
}

/** The newest first, so that it stays in sight. */
const Traffic = ({ lines }: Readonly<{ lines: LinkHealth['traffic'] }>) => (
  <ol className="traffic">
    {numbered(lines)
      .reverse()
      .map(({ key, of: line }) => (
        <li key={key} className={`traffic__${line.way}`}>
          <small>{way[line.way]}</small>
          <code>{line.text}</code>
        </li>
      ))}
  </ol>
);

/** The day to which the calibration counts, as a hand types it from the sticker. */
function Sticker() {
  const meter = useSelected(selectMeter);
  const busy = useSelected(selectBusy);
  const { meterDesk } = useWorkbench();
  const held = meter.at === 'connected' ? (meter.meter.identity.calibrationDueOn ?? '') : '';
  const calibratedOn = meter.at === 'connected' ? meter.meter.identity.calibratedOn : undefined;
  const [dueOn, setDueOn] = useState(held);
  return (
    <section className="sticker" aria-label="Calibration">
      <TextField className="field" type="date" value={dueOn} onChange={setDueOn}>
        <Label>Calibration due, says its sticker</Label>
        <Input />
      </TextField>
      <PressButton
        isDisabled={dueOn === held || busy === 'calibration'}
        onPress={() => meterDesk.noteCalibration(dueOn === '' ? null : dueOn)}
      >
        Keep this day
      </PressButton>
      <p className="quiet">
        {calibratedOn === undefined
          ? 'This meter tells no date itself.'
          : `This meter says that it was calibrated on ${calibratedOn}; without a sticker that counts for a year.`}{' '}
        The day is kept with the meter and shown with every sweep; every change stays in the archive.
      </p>
    </section>
  );
}
