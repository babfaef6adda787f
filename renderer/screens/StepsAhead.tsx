import { type SetUpKind, stepsOf } from '../../core/set-up/steps.ts';

/** What a set-up will go through; where there is room, with what each step asks for. */
export const StepsAhead = ({ kind }: Readonly<{ kind: SetUpKind }>) => (
  <ol className="set-up__ahead" aria-label="The steps ahead">
    {stepsOf(kind).map(({ id, title, toDo }) => (
      <li key={id}>
        {title}
        <span className="set-up__to-do">{toDo}</span>
      </li>
    ))}
  </ol>
);
