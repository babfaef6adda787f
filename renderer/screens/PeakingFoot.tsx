import { useEffect, useState } from 'react';
import { Button, Input, Label, ToggleButton } from 'react-aria-components';
import { ON_TARGET_DB } from '../../core/set-up/target.ts';
import { levelFromNumber, levelNumber, levelWord } from '../format.ts';
import { LiveText } from '../parts/LiveText.tsx';
import { NumberEntry } from '../parts/NumberEntry.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { useTone } from '../sound/use-tone.ts';
import type { LevelSource } from '../state/level-moment.ts';
import { levelWordsIn } from '../state/level-words.ts';
import type { LivePlan } from '../state/live-slice.ts';
import { selectLevelUnit, selectLive, selectMeterIsReady } from '../state/select.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';

export type PeakingFootProps = Readonly<{
  source: LevelSource;
  plan: LivePlan | null;
  targetDbmv: number | null;
  isOwnTarget: boolean;
  onTarget: (targetDbmv: number | null) => void;
}>;

const samePlan = (a: LivePlan, b: LivePlan) =>
  a.stationId === b.stationId && a.portName === b.portName && a.frequencyMhz === b.frequencyMhz;

/** Sound, what was held, the target, and the one button that starts and stops. */
export function PeakingFoot({ source, plan, targetDbmv, isOwnTarget, onTarget }: PeakingFootProps) {
  const unit = useSelected(selectLevelUnit);
  const words = levelWordsIn[unit];
  const live = useSelected(selectLive);
  const meterIsReady = useSelected(selectMeterIsReady);
  const { dialogOpened } = useActions();
  const { levels, startLive, stopLive } = useWorkbench();
  const [sound, setSound] = useState(false);
  const running = live.at === 'running' || live.at === 'starting';
  const unlock = useTone(source, ON_TARGET_DB, sound && running);
  // Another channel while it runs: the meter follows.
  useEffect(() => {
    if (plan !== null && live.at === 'running' && !samePlan(live.plan, plan)) void startLive(plan);
  }, [plan, live, startLive]);

  const begin = () => {
    if (plan === null) return;
    unlock();
    void startLive(plan);
  };
  return (
    <footer className="foot peaking__foot">
      <ToggleButton
        className="button button--plain button--visit"
        isSelected={sound}
        onChange={(on) => {
          unlock();
          setSound(on);
        }}
      >
        {sound ? 'Sound is on' : 'Sound is off'}
      </ToggleButton>
      <Button className="button button--plain button--visit held" onPress={levels.holdAnew}>
        <span>
          highest <LiveText source={source} words={words.highest} className="held__level" />
        </span>
        <span>
          lowest <LiveText source={source} words={words.lowest} className="held__level" />
        </span>
        <small>hold anew</small>
      </Button>
      <NumberEntry
        className="field field--line peaking__target"
        value={targetDbmv === null ? Number.NaN : levelNumber(targetDbmv, unit)}
        onChange={(typed) => {
          const typedDbmv = levelFromNumber(typed, unit);
          onTarget(Number.isFinite(typedDbmv) ? typedDbmv : null);
        }}
        minValue={levelNumber(-60, unit)}
        maxValue={levelNumber(80, unit)}
        formatOptions={
          unit === 'mV'
            ? { maximumSignificantDigits: 3 }
            : { minimumFractionDigits: 1, maximumFractionDigits: 1 }
        }
      >
        <Label>Target</Label>
        <Input placeholder="none" />
        <span aria-hidden="true">{levelWord(unit)}</span>
      </NumberEntry>
      {isOwnTarget && (
        <PressButton rank="quiet" onPress={() => onTarget(null)}>
          Back to design
        </PressButton>
      )}
      <div className="foot__end">
        {live.at === 'ended' && <p className="peaking__ended">{live.reason}</p>}
        {running ? (
          <PressButton size="visit" onPress={() => stopLive()}>
            Stop
          </PressButton>
        ) : meterIsReady ? (
          <PressButton rank="do" size="visit" isDisabled={plan === null} onPress={begin} autoFocus>
            Start
          </PressButton>
        ) : (
          <PressButton rank="do" size="visit" onPress={() => dialogOpened({ open: 'meter' })} autoFocus>
            Choose a meter
          </PressButton>
        )}
      </div>
    </footer>
  );
}
