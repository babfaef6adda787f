import { type SetUpKind, stepsOf } from '../../core/set-up/steps.ts';

/** What a set-up will go through. */
export const StepsAhead = ({ kind }: Readonly<{ kind: SetUpKind }>) => (
  <ol className="set-up__ahead" aria-label="The steps ahead">
    {stepsOf(kind).map(({ id, title }) => (
      <li key={id}>{title}</li>
    ))}
  </ol>
);
