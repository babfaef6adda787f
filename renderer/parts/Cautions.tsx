import { CAUTIONS, CAUTIONS_DEFER } from '../../core/words/cautions.ts';

/** Said once at the start of a visit, and not on every screen. */
export const Cautions = () => (
  <ul className="cautions">
    {CAUTIONS.map(({ lead, text }) => (
      <li key={lead}>
        <strong>{lead}</strong> {text}
      </li>
    ))}
    <li className="cautions__last">{CAUTIONS_DEFER}</li>
  </ul>
);
