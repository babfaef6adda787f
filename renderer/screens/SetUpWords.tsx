import type { ReactNode } from 'react';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { SetUpStep } from '../../core/set-up/steps.ts';
import { selectLevelUnit } from '../state/select.ts';
import { foundWords, type SetUpView } from '../state/set-up-view.ts';
import { useSelected } from '../state/use-workbench.ts';

export type SetUpWordsProps = Readonly<{
  view: SetUpView;
  step: SetUpStep;
  /** What stands at the end of the heading's row. */
  tools?: ReactNode;
}>;

/** What came out of the step before, as the lead of the one that is next. */
function justDone({ record, state }: SetUpView, unit: LevelUnitName): string | null {
  const last = record.events.at(-1);
  const before = state.steps.find(({ step }) => step.id === last?.step)?.step;
  if (last === undefined || before === undefined || last.outcome !== 'done') return null;
  const found = foundWords(before, last.values, unit);
  return `${before.title}: done${last.by === 'reading' ? ' by reading' : ''}${found === '' ? '' : `, ${found}`}.`;
}

/** The step in hand: what to do, and what to watch. */
export function SetUpWords({ view, step, tools }: SetUpWordsProps) {
  const unit = useSelected(selectLevelUnit);
  return (
    <header className="set-up__words">
      <p className="lead" role="status">
        <span>{`Step ${view.stepNumber} of ${view.stepCount}`}</span>
        <span className="set-up__before">{justDone(view, unit)}</span>
      </p>
      <div className="set-up__title">
        <h1>{step.title}</h1>
        {tools}
      </div>
      <p className="set-up__do">{step.toDo}</p>
      <p className="set-up__watch">{step.toWatch}</p>
    </header>
  );
}
