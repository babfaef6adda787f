import { useEffect, useMemo, useState } from 'react';
import { ON_TARGET_DB } from '../../core/set-up/target.ts';
import { LevelStrip } from '../charts/LevelStrip.tsx';
import { levelWord } from '../format.ts';
import { howPeaking } from '../how/live.ts';
import { CalibrationPast } from '../parts/CalibrationPast.tsx';
import { HowText } from '../parts/HowText.tsx';
import { LevelDial } from '../parts/LevelDial.tsx';
import { LiveSpoken } from '../parts/LiveSpoken.tsx';
import { LiveText } from '../parts/LiveText.tsx';
import { calibrationWords } from '../state/calibration-words.ts';
import { createLevelSource, type LevelGoal } from '../state/level-moment.ts';
import { ageWords, goalWords, levelWordsIn } from '../state/level-words.ts';
import { designAt, peakingChannels } from '../state/peaking-channels.ts';
import { selectLevelUnit, selectMeter } from '../state/select.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { useBench, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { PeakingChannelPick } from './PeakingChannelPick.tsx';
import { PeakingFoot } from './PeakingFoot.tsx';
import { PlaceDialogs } from './PlaceDialogs.tsx';
import { PortTabs } from './PortTabs.tsx';
import { StationBar } from './StationBar.tsx';

/** One level, live, for a hand on a control and eyes on the amplifier. */
export function PeakingScreen({ open }: Readonly<{ open: OpenSheet }>) {
  const { station } = open.sheet;
  const unit = useSelected(selectLevelUnit);
  const words = levelWordsIn[unit];
  const meter = useSelected(selectMeter);
  const { now } = useBench();
  const { levels, stopLive } = useWorkbench();
  const [portName, setPortName] = useState(open.portName);
  const port = station.ports.find(({ name }) => name === portName) ?? station.ports[0];
  const channels = useMemo(() => (port === undefined ? [] : peakingChannels(station, port)), [station, port]);
  const [ownMhz, setOwnMhz] = useState<number | null>(null);
  const [key, setKey] = useState<string>(channels[0]?.key ?? 'own');
  const frequencyMhz =
    key === 'own'
      ? ownMhz
      : ((channels.find((one) => one.key === key) ?? channels[0])?.frequencyMhz ?? ownMhz);
  const [ownTargetDbmv, setOwnTargetDbmv] = useState<number | null>(null);
  const designDbmv = port === undefined || frequencyMhz === null ? null : designAt(port, frequencyMhz);
  const targetLevel = ownTargetDbmv ?? designDbmv;
  const goal = useMemo<LevelGoal>(
    () =>
      targetLevel === null
        ? { kind: 'none' }
        : { kind: 'target', levelDbmv: targetLevel, toleranceDb: ON_TARGET_DB },
    [targetLevel],
  );
  const source = useMemo(() => createLevelSource(levels, goal), [levels, goal]);
  const strip = useMemo(
    () => ({ readings: levels.readings, nowS: levels.nowS, onTick: source.onTick }),
    [levels, source],
  );
  const target = useMemo(
    () =>
      targetLevel === null ? null : { levelDbmv: targetLevel, toleranceDb: ON_TARGET_DB, name: 'target' },
    [targetLevel],
  );
  // Whoever goes elsewhere has the meter free again.
  useEffect(() => () => void stopLive(), [stopLive]);
  if (port === undefined) return null;
  const about = ownTargetDbmv !== null ? 'set by hand' : 'the design';

  return (
    <div className="peaking">
      <StationBar open={open} />
      <section className="peaking__what" aria-label="What is read">
        <PortTabs
          ports={station.ports}
          portName={port.name}
          isDisabled={false}
          onChoose={(name) => {
            setPortName(name);
            setOwnTargetDbmv(null);
          }}
        />
        <PeakingChannelPick
          channels={channels}
          chosen={key}
          ownMhz={ownMhz}
          onChoose={(chosen) => {
            setKey(chosen);
            setOwnTargetDbmv(null);
          }}
          onOwn={(mhz) => {
            setOwnMhz(mhz);
            setKey('own');
            setOwnTargetDbmv(null);
          }}
        />
        {meter.at === 'connected' && (
          <CalibrationPast calibration={calibrationWords(meter.meter.identity, now())} />
        )}
        <p className="peaking__age">
          <LiveText source={source} words={ageWords} />
        </p>
      </section>
      <main className="peaking__main">
        <h1 className="unseen">{`Peaking, ${port.name}`}</h1>
        <LevelDial
          source={source}
          words={words.dial}
          goal={
            targetLevel === null || frequencyMhz === null ? (
              goalWords(goal, 'no target here: set one below', unit)
            ) : (
              <HowText
                how={howPeaking(
                  {
                    levelDbmv: targetLevel,
                    atMhz: frequencyMhz,
                    toleranceDb: ON_TARGET_DB,
                    design: ownTargetDbmv === null ? (port.design ?? null) : null,
                  },
                  unit,
                )}
                text={goalWords(goal, about, unit)}
              />
            )
          }
          unit={levelWord(unit)}
          size="whole"
        />
        <LevelStrip source={strip} target={target} title="The level of the last minute" unit={unit} />
        <LiveSpoken source={source} words={words.spoken} />
      </main>
      <PeakingFoot
        source={source}
        plan={frequencyMhz === null ? null : { stationId: station.id, portName: port.name, frequencyMhz }}
        targetDbmv={targetLevel}
        isOwnTarget={ownTargetDbmv !== null}
        onTarget={setOwnTargetDbmv}
      />
      <PlaceDialogs />
    </div>
  );
}
