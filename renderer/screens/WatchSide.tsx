import { useState } from 'react';
import { Input, Label, Radio, RadioGroup } from 'react-aria-components';
import type { Station } from '../../core/files/station.ts';
import { celsiusFromFahrenheit } from '../../core/units.ts';
import { LEAST_SWING_C } from '../../core/watch/swing.ts';
import { capital, clock, counted, mhz, sizeDb, temperature } from '../format.ts';
import { degrees } from '../how/degrees.ts';
import { howSwing } from '../how/season.ts';
import { CalibrationPast } from '../parts/CalibrationPast.tsx';
import { HowText } from '../parts/HowText.tsx';
import { Mark } from '../parts/Mark.tsx';
import { NumberEntry } from '../parts/NumberEntry.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { calibrationWords } from '../state/calibration-words.ts';
import { peakingChannels } from '../state/peaking-channels.ts';
import { selectBusy, selectMeterIsReady, selectTemperatureUnit, selectWatching } from '../state/select.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import type { OpenWatch } from '../state/watch-slice.ts';
import type { WatchView } from '../state/watch-view.ts';

export type WatchSideProps = Readonly<{ open: OpenSheet; shown: OpenWatch | null; view: WatchView | null }>;

const HOUR_S = 3600;
const presets = [
  {
    key: 'day',
    name: '24 hours',
    about: 'every six hours, five rounds',
    everyS: 6 * HOUR_S,
    forS: 24 * HOUR_S,
  },
  { key: 'night', name: 'Overnight', about: '12 hours, every ten minutes', everyS: 600, forS: 12 * HOUR_S },
  { key: 'week', name: 'A week', about: 'every hour', everyS: HOUR_S, forS: 168 * HOUR_S },
  { key: 'hour', name: 'One hour', about: 'every ten seconds', everyS: 10, forS: HOUR_S },
  { key: 'look', name: 'Ten minutes', about: 'every two seconds', everyS: 2, forS: 600 },
] as const;

export const stateWords = {
  complete: 'complete',
  stopped: 'stopped by hand',
  'cut-short': 'cut short',
} as const;

/** What the watch has come to, or the start of one. */
export function WatchSide({ open, shown, view }: WatchSideProps) {
  const watching = useSelected(selectWatching);
  const isRunning = shown?.watch.state === 'running';
  const other =
    watching.at === 'open' ? watching.watches.find(({ state }) => state === 'running') : undefined;
  return (
    <>
      {shown !== null && view !== null && <Found shown={shown} view={view} span={open.sheet.station.span} />}
      {isRunning ? (
        <Running open={open} shown={shown} />
      ) : other !== undefined && shown !== null ? (
        <p className="quiet">{`The watch of ${clock(other.startedAt)} is still running; choose it above.`}</p>
      ) : (
        <Start open={open} isFirst={shown === null} />
      )}
    </>
  );
}

type FoundProps = Readonly<{ shown: OpenWatch; view: WatchView; span: Station['span'] }>;

function Found({ shown, view, span }: FoundProps) {
  const unit = useSelected(selectTemperatureUnit);
  const { watch } = shown;
  const read = watch.roundCount - watch.missedCount;
  const { swing } = view;
  return (
    <>
      <p className="lead">{`${capital(watch.portName)}, ${counted(watch.frequenciesMhz.length, 'channel', 'channels')}`}</p>
      <h1>
        {watch.state === 'running'
          ? `Watching: ${read}${view.plannedRounds === null ? '' : ` of ${view.plannedRounds}`} rounds`
          : `${counted(read, 'round', 'rounds')}, ${stateWords[watch.state]}`}
      </h1>
      {watch.missedCount > 0 && (
        <p className="said">
          <Mark verdict="undecided" />
          <span>{`${counted(watch.missedCount, 'round', 'rounds')} missed: ${[...new Set(view.gaps.map(({ why }) => why))].join('; ')}.`}</span>
        </p>
      )}
      <CalibrationPast calibration={calibrationWords(watch.meter.identity, watch.startedAt)} />
      {watch.endReason !== null && <p className="quiet">{capital(watch.endReason)}</p>}
      {swing !== null && view.swingMhz !== null && span !== undefined ? (
        <p className="said">
          <Mark verdict={swing.takenOut > 0.5 ? 'pass' : 'fail'} pointing="up" />
          <span>
            {`From ${temperature(swing.coldestC, unit)} to ${temperature(swing.hottestC, unit)} the cable alone moves ${mhz(view.swingMhz)} by ${sizeDb(swing.withoutControlDb)}; ${sizeDb(swing.levelDb)} came out. `}
            <HowText
              how={howSwing(swing, view.swingMhz, span, unit)}
              text={`The control took out ${Math.round(Math.max(0, swing.takenOut) * 100)}\u00A0%.`}
            />
          </span>
        </p>
      ) : (
        <p className="quiet">
          {`How much of the weather the control takes out is told once the temperatures noted lie ${degrees(LEAST_SWING_C, unit)} apart.`}
        </p>
      )}
    </>
  );
}

function Running({ open, shown }: Readonly<{ open: OpenSheet; shown: OpenWatch }>) {
  const unit = useSelected(selectTemperatureUnit);
  const busy = useSelected(selectBusy);
  const { stopWatch, noteTemperature } = useWorkbench();
  const [air, setAir] = useState(Number.NaN);
  const { watch } = shown;
  const nextAt = new Date(Date.parse(watch.startedAt) + watch.roundCount * watch.everyS * 1000);
  return (
    <>
      <p className="quiet">{`The next round is due at ${clock(nextAt.toISOString())}. It goes on without this page, after a lost meter, sleep and a restart.`}</p>
      <div className="watch__air">
        <NumberEntry className="field" value={air} onChange={setAir}>
          <Label>{`Air now, °${unit}`}</Label>
          <Input />
        </NumberEntry>
        <PressButton
          size="visit"
          isDisabled={!Number.isFinite(air)}
          onPress={async () => {
            await noteTemperature(
              open.sheet.station.id,
              watch.watchId,
              unit === 'C' ? air : celsiusFromFahrenheit(air),
            );
            setAir(Number.NaN);
          }}
        >
          Note it
        </PressButton>
      </div>
      <div className="acts">
        <PressButton size="visit" isDisabled={busy === 'watch'} onPress={() => stopWatch(watch.watchId)}>
          Stop the watch
        </PressButton>
      </div>
    </>
  );
}

function Start({ open, isFirst }: Readonly<{ open: OpenSheet; isFirst: boolean }>) {
  const { sheet } = open;
  const busy = useSelected(selectBusy);
  const meterIsReady = useSelected(selectMeterIsReady);
  const { dialogOpened } = useActions();
  const { startWatch, stopLive } = useWorkbench();
  const [chosen, setChosen] = useState<string>('day');
  const port = sheet.station.ports.find(
    ({ design, direction }) => direction === 'forward' && design !== undefined,
  );
  const preset = presets.find(({ key }) => key === chosen) ?? presets[0];
  if (port === undefined) return null;
  const channels = peakingChannels(sheet.station, port);
  const begin = async () => {
    await stopLive();
    await startWatch({
      stationId: sheet.station.id,
      visitId: sheet.openVisit?.visitId ?? null,
      portName: port.name,
      frequenciesMhz: [...new Set(channels.map(({ frequencyMhz }) => frequencyMhz))].sort((a, b) => a - b),
      pilotMhz: channels.find(({ key }) => key === 'pilot')?.frequencyMhz ?? null,
      everyS: preset.everyS,
      forS: preset.forS,
      ambientC: sheet.openVisit?.ambientC ?? null,
    });
  };
  return (
    <>
      {isFirst && (
        <>
          <p className="lead">Unattended</p>
          <h1>Watch the station</h1>
        </>
      )}
      <RadioGroup className="ways ways--close" value={chosen} onChange={setChosen}>
        <Label className="ways__label">{isFirst ? 'How long' : 'Another watch'}</Label>
        {presets.map(({ key, name, about }) => (
          <Radio key={key} value={key} className="way">
            <span className="way__knob" />
            <span className="way__words">
              <strong>{name}</strong>
              <small>{about}</small>
            </span>
          </Radio>
        ))}
      </RadioGroup>
      <p className="quiet">
        {`${capital(port.name)}: ${channels.map(({ name, frequencyMhz }) => `${name.toLowerCase()} ${mhz(frequencyMhz)}`).join(', ')}.`}
      </p>
      <div className="acts">
        {meterIsReady ? (
          <PressButton rank="do" size="visit" isDisabled={busy === 'watch'} onPress={begin}>
            Start the watch
          </PressButton>
        ) : (
          <PressButton rank="do" size="visit" onPress={() => dialogOpened({ open: 'meter' })}>
            Choose a meter
          </PressButton>
        )}
      </div>
    </>
  );
}
