import type { ReactNode } from 'react';
import { LiveText, type Ticking } from './LiveText.tsx';

export type DialWords<T> = Readonly<{
  number: (value: T) => string;
  distance: (value: T) => string;
  hand: (value: T) => string;
  detail: (value: T) => string;
  /** `live`, `stale` or the like, and `inside` on the target: the style sheet follows it. */
  state: (value: T) => string;
}>;

export type LevelDialProps<T> = Readonly<{
  source: Ticking<T>;
  words: DialWords<T>;
  /** What is aimed at, under the distance. */
  goal: ReactNode;
  /** What the number is in. */
  unit: string;
  size: 'whole' | 'beside';
}>;

/** The level as large as the screen allows, how far it is from where it should be, and which way to turn. */
export const LevelDial = <T,>({ source, words, goal, unit, size }: LevelDialProps<T>) => (
  <div className={`dial dial--${size}`}>
    <p className="dial__level">
      <LiveText source={source} words={words.number} state={words.state} className="dial__number" />
      <small>{unit}</small>
    </p>
    <div className="dial__to">
      <LiveText source={source} words={words.distance} state={words.state} className="dial__distance" />
      <span className="dial__goal">{goal}</span>
      <LiveText source={source} words={words.hand} state={words.state} className="dial__way" />
      <LiveText source={source} words={words.detail} className="dial__detail" />
    </div>
  </div>
);
