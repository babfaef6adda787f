import { capital, plugIn } from '../format.ts';
import { Glyph } from './Glyph.tsx';

export type PlugInSwapProps = Readonly<{ position: string; from: number; to: number }>;

/** One plug-in to change, as the technician will say it. */
export const PlugInSwap = ({ position, from, to }: PlugInSwapProps) => (
  <li className="swap" aria-label={`${capital(position)}: replace ${plugIn(from)} with ${plugIn(to)}`}>
    <span className="swap__where">{capital(position)}</span>
    <span className="swap__values">
      <span className="swap__from">{plugIn(from)}</span>
      <Glyph name="arrow" />
      <strong className="swap__to">{plugIn(to)}</strong>
    </span>
  </li>
);
