import { useEffect, useRef } from 'react';
import { ListBox, ListBoxItem } from 'react-aria-components';
import type { LevelRow } from '../../core/line/level-row.ts';
import { capital, mhz, plugIn, signedDb } from '../format.ts';
import { Glyph } from './Glyph.tsx';
import { Sparkline } from './Sparkline.tsx';

export type LogEntry =
  | Readonly<{
      kind: 'sweep';
      key: string;
      title: string;
      about: string;
      partial: boolean;
      /** Why nothing is judged by it any more; null for a sweep that counts. */
      struck: string | null;
      /** The meter's calibration counted no more when it was read. */
      calibrationPast: boolean;
      ink: 'found' | 'left' | 'check';
      rows: readonly LevelRow[];
    }>
  | Readonly<{
      kind: 'fitting';
      key: string;
      changes: readonly Readonly<{ position: string; from: number; to: number }>[];
    }>
  | Readonly<{
      kind: 'turned';
      key: string;
      turns: readonly Readonly<{ name: string; byDb: number; atMhz: number }>[];
    }>
  | Readonly<{ kind: 'day'; key: string; title: string; about: string }>;

export type VisitLogProps = Readonly<{
  entries: readonly LogEntry[];
  chosenSweepId: string | null;
  onChoose: (sweepId: string) => void;
}>;

const wordsOf = (entry: LogEntry): string => {
  switch (entry.kind) {
    case 'sweep':
      return `${entry.title}, ${entry.about}${entry.partial ? ', partial' : ''}${entry.calibrationPast ? ', meter calibration past' : ''}${entry.struck === null ? '' : `, ${entry.struck}`}`;
    case 'fitting':
      return entry.changes
        .map(({ position, from, to }) => `${position} ${plugIn(from)} to ${plugIn(to)}`)
        .join(', ');
    case 'turned':
      return entry.turns
        .map(({ name, byDb, atMhz }) => `${name} turned ${signedDb(byDb)} at ${mhz(atMhz)}`)
        .join(', ');
    case 'day':
      return `${entry.title} ${entry.about}`;
  }
};

/** What happened here, from left to right as it happened; the newest stays in sight. */
export function VisitLog({ entries, chosenSweepId, onChoose }: VisitLogProps) {
  const place = useRef<HTMLDivElement>(null);
  const count = entries.length;
  useEffect(() => {
    if (count === 0 || chosenSweepId === null) return;
    // The list draws its entries a moment after it is told of them.
    const frame = requestAnimationFrame(() =>
      place.current
        ?.querySelector('[data-selected]')
        ?.scrollIntoView({ block: 'nearest', inline: 'nearest' }),
    );
    return () => cancelAnimationFrame(frame);
  }, [count, chosenSweepId]);
  return (
    <ListBox
      ref={place}
      className="log"
      aria-label="Sweeps and fittings of this station"
      orientation="horizontal"
      selectionMode="single"
      disallowEmptySelection
      selectedKeys={chosenSweepId === null ? [] : [chosenSweepId]}
      disabledKeys={entries.filter((entry) => entry.kind !== 'sweep').map((entry) => entry.key)}
      onSelectionChange={(keys) => {
        if (keys === 'all') return;
        const [key] = keys;
        if (key !== undefined) onChoose(String(key));
      }}
    >
      {entries.map((entry) => (
        <ListBoxItem
          key={entry.key}
          id={entry.key}
          textValue={wordsOf(entry)}
          className={entry.kind === 'turned' ? 'log__fitting' : `log__${entry.kind}`}
        >
          {entry.kind === 'sweep' && (
            <>
              <Sparkline rows={entry.rows} ink={entry.ink} />
              <span className="log__words">
                {entry.struck === null ? <strong>{entry.title}</strong> : <s>{entry.title}</s>}
                <small>
                  {entry.about}
                  {entry.partial && <b className="log__partial"> partial</b>}
                  {entry.calibrationPast && <b className="log__partial"> calibration past</b>}
                </small>
                {entry.struck !== null && <small className="log__struck">{entry.struck}</small>}
              </span>
            </>
          )}
          {entry.kind === 'fitting' &&
            entry.changes.slice(0, 3).map(({ position, from, to }) => (
              <small key={position}>
                {`${capital(position)} ${plugIn(from)}`} <Glyph name="arrow" /> <b>{plugIn(to)}</b>
              </small>
            ))}
          {entry.kind === 'turned' &&
            entry.turns.slice(0, 3).map(({ name, byDb }) => (
              <small key={name}>
                {`${capital(name)} turned`} <b>{signedDb(byDb)}</b>
              </small>
            ))}
          {entry.kind === 'day' && (
            <small>
              <b>{entry.title}</b>
              <br />
              {entry.about}
            </small>
          )}
        </ListBoxItem>
      ))}
    </ListBox>
  );
}
