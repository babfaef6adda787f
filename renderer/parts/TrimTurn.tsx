import type { TrimMove } from '../../core/propose/trims.ts';
import { capital } from '../format.ts';

/** One trim to turn, as the technician will say it. */
export const TrimTurn = ({ name, text }: Pick<TrimMove, 'name' | 'text'>) => (
  <li className="turn">
    <span className="swap__where">{capital(name)}</span>
    <strong className="turn__words">{text}</strong>
  </li>
);
