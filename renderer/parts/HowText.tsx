import { asWritten } from '../format.ts';
import type { How } from '../how/how.ts';
import { HowButton } from './HowButton.tsx';

export type HowTextProps = Readonly<{
  how: How;
  text: string;
  /** The part that is marked as pressable; the first figure with its unit where nothing is named. */
  figure?: string;
}>;

const FIGURE =
  /[+\u2212\u00B1]?\d+(?:[.,]\d+)?(?:[\u00A0 ](?:dBmV|dB\u00B5V|dBm|dB|mV|MHz|\u00B0[CF]|%|m|ft)(?![\p{L}\u00B5]))?/u;

/** A text whose number can be pressed; the whole of it is the target, and only the figure is marked. */
export function HowText({ how, text: said, figure }: HowTextProps) {
  const text = asWritten(said);
  const marked = (figure === undefined ? undefined : asWritten(figure)) ?? FIGURE.exec(text)?.[0] ?? text;
  const at = text.indexOf(marked);
  // A figure alone says nothing to whoever only hears it.
  const label = marked === text ? `${how.title}, ${text}` : text.replace(/\.$/, '');
  return (
    <HowButton how={how} label={label} className="how-button--quiet">
      <span>
        {text.slice(0, Math.max(0, at))}
        <span className="how-button__figure">{at < 0 ? text : marked}</span>
        {at < 0 ? '' : text.slice(at + marked.length)}
      </span>
    </HowButton>
  );
}
