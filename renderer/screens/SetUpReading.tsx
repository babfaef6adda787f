import { useEffect, useMemo, useRef, useState } from 'react';
import { ToggleButton } from 'react-aria-components';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { pilotLoss } from '../../core/gain-control/pilot-loss.ts';
import { lowEndAdvice } from '../../core/set-up/low-end-words.ts';
import type { SetUpStep } from '../../core/set-up/steps.ts';
import { ON_TARGET_DB } from '../../core/set-up/target.ts';
import { trendWords } from '../../core/trend/words.ts';
import { LevelStrip } from '../charts/LevelStrip.tsx';
import { levelWord, mhz } from '../format.ts';
import { howTarget } from '../how/gain-control.ts';
import { HowText } from '../parts/HowText.tsx';
import { type DialWords, LevelDial } from '../parts/LevelDial.tsx';
import { LiveSpoken } from '../parts/LiveSpoken.tsx';
import { LiveText } from '../parts/LiveText.tsx';
import { Mark } from '../parts/Mark.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { useTone } from '../sound/use-tone.ts';
import { createLevelSource, type LevelMoment } from '../state/level-moment.ts';
import { ageWords, goalWords, levelWordsIn } from '../state/level-words.ts';
import { selectLevelUnit, selectLive, selectMeterIsReady } from '../state/select.ts';
import type { SetUpView } from '../state/set-up-view.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { createStepProof, isWhole, type StepProofNow, valuesOf } from '../state/step-proof.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { RangeSeen } from './RangeSeen.tsx';
import { SetUpWords } from './SetUpWords.tsx';

export type SetUpReadingProps = Readonly<{
  open: OpenSheet;
  view: SetUpView;
  step: SetUpStep;
  onSkip: () => void;
}>;

/** The level and its proof, for a dial that says both. */
type Seen = Readonly<{ moment: LevelMoment; proof: StepProofNow }>;

/** How far it has been below its highest: so far the hand has brought it. */
const fellDb = ({ highestDbmv, lowestDbmv }: LevelMoment): number =>
  highestDbmv === null || lowestDbmv === null ? 0 : highestDbmv - lowestDbmv;

const proofWords = ({ words }: StepProofNow): string => words;
/** The words of the dials: with a level to aim at; without, where what to do next is the proof's to say; at the low end. */
type Dials = Readonly<Record<'aimed' | 'sought' | 'low', DialWords<Seen>>>;
function dialsIn(unit: LevelUnitName): Dials {
  const { dial } = levelWordsIn[unit];
  const aimed: DialWords<Seen> = {
    number: ({ moment }) => dial.number(moment),
    distance: ({ moment }) => dial.distance(moment),
    hand: ({ moment }) => dial.hand(moment),
    detail: ({ moment }) => dial.detail(moment),
    state: ({ moment }) => dial.state(moment),
  };
  return {
    aimed,
    sought: {
      ...aimed,
      hand: ({ moment, proof }) =>
        moment.at === 'live' && proof.words !== '' ? proof.words : dial.hand(moment),
    },
    // No proof holds where a loop works against the hand: what the level does is said instead.
    low: {
      ...aimed,
      hand: ({ moment }) => (moment.at === 'live' ? trendWords(moment.trend) : dial.hand(moment)),
      detail: ({ moment }) => (moment.at === 'live' ? lowEndAdvice(moment.trend, fellDb(moment)) : ''),
    },
  };
}

/** What the hand says it has done, where no reading can show it. */
const doneWords: Partial<Record<SetUpStep['id'], string>> = {
  'control-low': 'It is at its low end',
  manual: 'It is in manual',
  exchange: 'Module and pad are in',
  automatic: 'It is in automatic',
};

/** A step with a live level: the number, where it should go, and the proof that comes by itself. */
export function SetUpReading({ view, step, onSkip }: SetUpReadingProps) {
  const { listen, goal, target, record } = view;
  const unit = useSelected(selectLevelUnit);
  const words = useMemo(() => dialsIn(unit), [unit]);
  const live = useSelected(selectLive);
  const meterIsReady = useSelected(selectMeterIsReady);
  const { dialogOpened } = useActions();
  const { levels, startLive, stopLive, recordStep } = useWorkbench();
  const [sound, setSound] = useState(false);

  const runs = live.at === 'running' || live.at === 'starting';
  const samePort = runs && listen !== null && live.plan.portName === listen.portName;
  const isHere = samePort && live.plan.frequencyMhz === listen.frequencyMhz;

  // Readings from before the step began prove nothing for it.
  const begun = useRef({
    liveId: levels.liveId(),
    atS: isHere ? (levels.readings().at(-1)?.atS ?? 0) : Number.POSITIVE_INFINITY,
  });
  const source = useMemo(() => createLevelSource(levels, goal), [levels, goal]);
  const proof = useMemo(
    () =>
      createStepProof(
        levels,
        source,
        step,
        target,
        () => (levels.liveId() === begun.current.liveId ? begun.current.atS : 0),
        unit,
      ),
    [levels, source, step, target, unit],
  );
  const seen = useMemo(
    () => ({ read: (): Seen => ({ moment: source.read(), proof: proof.read() }), onTick: source.onTick }),
    [source, proof],
  );
  const strip = useMemo(
    () => ({ readings: levels.readings, nowS: levels.nowS, onTick: source.onTick }),
    [levels, source],
  );
  const stripTarget = useMemo(
    () =>
      'why' in target
        ? null
        : {
            levelDbmv: target.levelDbmv,
            toleranceDb: target.toleranceDb,
            name: step.id === 'range-test' ? 'set level' : 'target',
          },
    [target, step],
  );
  const unlock = useTone(source, goal.kind === 'target' ? goal.toleranceDb : ON_TARGET_DB, sound && isHere);

  // At the same test point the meter follows to the next frequency; to another one the probe has to be moved first.
  useEffect(() => {
    if (listen === null || live.at !== 'running' || isHere) return;
    if (samePort) void startLive(listen);
    else {
      void stopLive();
      levels.forget();
    }
  }, [listen, live, isHere, samePort, levels, startLive, stopLive]);

  // What was read before a sweep, or in another step's run, is not this step's picture.
  const restsAtFirst = useRef(!runs);
  useEffect(() => {
    if (restsAtFirst.current) levels.forget();
  }, [levels]);

  const sent = useRef(false);
  useEffect(() => {
    if (!isHere) return;
    return proof.onTick(() => {
      const now = proof.read();
      const values = valuesOf(step, now, record.plan);
      if (!now.proven || sent.current || !isWhole(step, values)) return;
      sent.current = true;
      void recordStep({
        step: step.id,
        outcome: 'done',
        by: 'reading',
        reason: null,
        values,
        liveId: levels.liveId(),
      });
    });
  }, [proof, isHere, step, record, levels, recordStep]);

  const byHand = () => {
    const now = proof.read();
    const levelDbmv = source.read().levelDbmv;
    const values = valuesOf(step, { levelDbmv, range: now.range }, record.plan);
    void recordStep({
      step: step.id,
      outcome: 'done',
      by: 'hand',
      reason: null,
      values,
      liveId: levelDbmv === null ? null : levels.liveId(),
    });
  };
  const done = doneWords[step.id];
  const isHand = step.proof === 'hand';
  // A range has two ends that only readings find; and today's compensation needs today's temperature.
  const canTake = isWhole(step, valuesOf(step, { levelDbmv: 0, range: null }, record.plan));
  const start = () => {
    unlock();
    if (listen !== null) void startLive(listen);
  };
  return (
    <>
      <SetUpWords view={view} step={step} />
      <div className="set-up__level">
        <LevelDial
          source={seen}
          words={words[goal.kind === 'target' ? 'aimed' : step.id === 'control-low' ? 'low' : 'sought']}
          goal={
            'why' in target ? (
              goalWords(goal, '', unit)
            ) : (
              <HowText how={howTarget(target, unit)} text={goalWords(goal, '', unit)} />
            )
          }
          unit={levelWord(unit)}
          size="beside"
        />
        <LevelStrip source={strip} target={stripTarget} title="The level of the last minute" unit={unit} />
      </div>
      <LiveSpoken source={source} words={levelWordsIn[unit].spoken} />
      {step.proof === 'range' && <RangeSeen proof={proof} />}
      <div className="set-up__proof">
        {live.at === 'ended' ? (
          <p className="said">
            <Mark verdict="fail" pointing="up" />
            <span>{live.reason}</span>
          </p>
        ) : (
          <p className="set-up__seen">
            {goal.kind === 'target' && <LiveText source={proof} words={proofWords} />}
          </p>
        )}
        <p className="set-up__age">
          {listen !== null && <span>{`${listen.portName}, ${mhz(listen.frequencyMhz)}`}</span>}
          <LiveText source={source} words={ageWords} />
        </p>
      </div>
      {(step.id === 'settle' || step.id === 'pilot') && isHere && 'levelDbmv' in target && (
        <PilotWatch view={view} setDbmv={target.levelDbmv} />
      )}
      <div className="set-up__acts">
        <PressButton rank="quiet" onPress={onSkip}>
          Skip
        </PressButton>
        <ToggleButton
          className="button button--plain button--usual"
          isSelected={sound}
          onChange={(on) => {
            unlock();
            setSound(on);
          }}
        >
          {sound ? 'Sound is on' : 'Sound is off'}
        </ToggleButton>
        <span className="set-up__gap" />
        {listen !== null && !runs && !meterIsReady && (
          <PressButton rank="do" size="visit" onPress={() => dialogOpened({ open: 'meter' })} autoFocus>
            Choose a meter
          </PressButton>
        )}
        {isHere && done === undefined && canTake && (
          <PressButton size="visit" onPress={byHand}>
            Take it as it is
          </PressButton>
        )}
        {listen !== null && !isHere && meterIsReady && (
          <PressButton rank={isHand ? 'plain' : 'do'} size="visit" onPress={start} autoFocus={!isHand}>
            {isHand ? 'Read' : `Probe on the ${listen.portName}: read`}
          </PressButton>
        )}
        {done !== undefined && (isHand || isHere) && (
          <PressButton rank="do" size="visit" onPress={byHand} autoFocus={isHand}>
            {done}
          </PressButton>
        )}
      </div>
    </>
  );
}

/** Says it when the control seems to have lost its pilot while nobody touches it. */
function PilotWatch({ view, setDbmv }: Readonly<{ view: SetUpView; setDbmv: number }>) {
  const { levels } = useWorkbench();
  const [words, setWords] = useState<string | null>(null);
  useEffect(() => {
    const timer = setInterval(
      () => setWords(pilotLoss(levels.readings().slice(-400), 'pilot', setDbmv, null).words),
      500,
    );
    return () => clearInterval(timer);
  }, [levels, setDbmv]);
  if (words === null || view.step === null) return null;
  return (
    <p className="said said--bad" role="alert">
      <Mark verdict="fail" pointing="up" />
      <span>{words}</span>
    </p>
  );
}
