import { Button } from 'react-aria-components';
import { Glyph } from './Glyph.tsx';

export type UndoButtonsProps = Readonly<{ undo: (() => void) | null; redo: (() => void) | null }>;

/** Takes the last change of a draft back, or brings it again; not there while nothing was changed. */
export const UndoButtons = ({ undo, redo }: UndoButtonsProps) =>
  undo === null && redo === null ? null : (
    <fieldset className="undo">
      <legend className="unseen">Changes not yet kept</legend>
      <Button
        className="icon-button icon-button--framed"
        aria-label="Undo the last change"
        isDisabled={undo === null}
        onPress={() => undo?.()}
      >
        <Glyph name="undo" />
      </Button>
      <Button
        className="icon-button icon-button--framed"
        aria-label="Redo"
        isDisabled={redo === null}
        onPress={() => redo?.()}
      >
        <Glyph name="redo" />
      </Button>
    </fieldset>
  );
