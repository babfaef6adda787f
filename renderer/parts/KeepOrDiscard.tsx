import { useEffect, useRef } from 'react';
import { Mark } from './Mark.tsx';
import { PressButton } from './PressButton.tsx';

export type KeepOrDiscardProps = Readonly<{
  /** Why the edits can't be kept as they stand; null when they can. */
  trouble: string | null;
  onKeep: () => void;
  onDiscard: () => void;
  onGoOn: () => void;
}>;

/** Asked where edits would be gone; nothing is thrown away by closing alone. */
export function KeepOrDiscard({ trouble, onKeep, onDiscard, onGoOn }: KeepOrDiscardProps) {
  const place = useRef<HTMLDivElement>(null);
  // Newer browsers answer a scroll with a promise, which is no way to end an effect.
  useEffect(() => {
    place.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  return (
    <div ref={place} className="unsaved" role="alertdialog" aria-label="Keep the changes?">
      <p className="unsaved__ask">Keep the changes?</p>
      {trouble !== null && (
        <p className="unsaved__trouble">
          <Mark verdict="fail" pointing="up" /> {`They can\u2019t be kept as they stand: ${trouble}`}
        </p>
      )}
      <div className="unsaved__answers">
        <PressButton rank="quiet" size="visit" onPress={onDiscard}>
          Discard
        </PressButton>
        <PressButton size="visit" onPress={onGoOn} autoFocus={trouble !== null}>
          Go on editing
        </PressButton>
        {trouble === null && (
          <PressButton rank="do" size="visit" onPress={onKeep} autoFocus>
            Keep
          </PressButton>
        )}
      </div>
    </div>
  );
}
