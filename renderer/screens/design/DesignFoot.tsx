import { PressButton } from '../../parts/PressButton.tsx';
import { UndoButtons } from '../../parts/UndoButtons.tsx';
import type { Lack } from '../../state/design/made.ts';
import { selectBusy } from '../../state/select.ts';
import { useSelected } from '../../state/use-workbench.ts';

export type DesignFootProps = Readonly<{
  lacks: readonly Lack[];
  undo: (() => void) | null;
  redo: (() => void) | null;
  onShow: (lack: Lack) => void;
  /** What is done with a station that is kept already: another one like it, its file while nothing of it is changed, whether it is in service. */
  kept: Readonly<{ onLike: () => void; onFile: (() => void) | null; onService: () => void }> | null;
  onKeep: () => void;
}>;

/** What is still to say, one press from where it is said, and the way to keep it. */
export function DesignFoot({ lacks, undo, redo, onShow, kept, onKeep }: DesignFootProps) {
  const busy = useSelected(selectBusy);
  const [next] = lacks;
  return (
    <footer className="foot design__foot">
      <p className="design__lacks" aria-live="polite">
        {next === undefined ? (
          <strong>Nothing is missing.</strong>
        ) : (
          <>
            <strong>{`${lacks.length} still to say`}</strong>
            <PressButton rank="quiet" onPress={() => onShow(next)}>
              {next.words}
            </PressButton>
          </>
        )}
      </p>
      <div className="foot__end">
        <UndoButtons undo={undo} redo={redo} />
        {kept !== null && (
          <>
            <PressButton isDisabled={kept.onFile === null} onPress={() => kept.onFile?.()}>
              Save its file
            </PressButton>
            <PressButton onPress={kept.onService}>In service?</PressButton>
            <PressButton onPress={kept.onLike}>A new one like it</PressButton>
          </>
        )}
        <PressButton rank="do" size="visit" isDisabled={busy === 'keep-design'} onPress={onKeep}>
          {kept === null ? 'Keep this station' : 'Keep this design'}
        </PressButton>
      </div>
    </footer>
  );
}
