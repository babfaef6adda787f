import { Button } from 'react-aria-components';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { StepState } from '../../core/set-up/state.ts';
import type { SetUpStep, SetUpStepId } from '../../core/set-up/steps.ts';
import { Mark } from '../parts/Mark.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { selectLevelUnit } from '../state/select.ts';
import { foundWords, type SetUpView } from '../state/set-up-view.ts';
import { useSelected } from '../state/use-workbench.ts';

export type SetUpStepsProps = Readonly<{
  view: SetUpView;
  onAgain: (step: SetUpStepId) => void;
  onGiveUp: () => void;
}>;

const kindWords = { 'new-module': 'A new module', check: 'A check' } as const;

const stateWords = (step: SetUpStep, state: StepState, unit: LevelUnitName): string => {
  switch (state.at) {
    case 'done':
      return foundWords(step, state.values, unit);
    case 'skipped':
      return 'skipped';
    case 'open':
      return '';
  }
};

const spoken = (state: StepState, words: string): string => {
  if (state.at === 'skipped') return `skipped, ${state.reason}`;
  return words === '' ? 'done' : `done, ${words}`;
};

/** Every step in its order, and how it stands. One that is over is pressed to do it again. */
export function SetUpSteps({ view, onAgain, onGiveUp }: SetUpStepsProps) {
  const unit = useSelected(selectLevelUnit);
  return (
    <nav className="steps" aria-label="Steps of the set-up">
      <p className="lead">{kindWords[view.record.plan.kind]}</p>
      <ol className="steps__list">
        {view.state.steps.map(({ step, state }) => {
          const isNext = step.id === view.step?.id;
          const words = stateWords(step, state, unit);
          const inside = (
            <>
              <Mark
                verdict={state.at === 'done' ? 'pass' : state.at === 'skipped' ? 'undecided' : 'unknown'}
              />
              <span className="steps__title">{step.title}</span>
              <span className="steps__found">{words}</span>
            </>
          );
          return (
            <li
              key={step.id}
              className={`steps__step${isNext ? ' steps__step--next' : ''} steps__step--${state.at}`}
              aria-current={isNext ? 'step' : undefined}
            >
              {state.at === 'open' ? (
                <span className="steps__row">{inside}</span>
              ) : (
                <Button
                  className="steps__row"
                  onPress={() => onAgain(step.id)}
                  aria-label={`${step.title}: ${spoken(state, words)}. Do it again.`}
                >
                  {inside}
                </Button>
              )}
            </li>
          );
        })}
      </ol>
      {view.step !== null && (
        <PressButton rank="quiet" onPress={onGiveUp}>
          Give it up
        </PressButton>
      )}
    </nav>
  );
}
