import type { ReactNode } from 'react';
import { Button, Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { Glyph } from './Glyph.tsx';
import { KeepOrDiscard } from './KeepOrDiscard.tsx';
import { UnsavedContext } from './unsaved.ts';
import { useUnsavedKeeper } from './use-unsaved-keeper.ts';

export type PanelProps = Readonly<{
  title: string;
  isOpen: boolean;
  onClose: () => void;
  width?: 'narrow' | 'wide' | 'widest';
  children: ReactNode;
}>;

/** A dialog: Escape and the corner close it, and focus returns to where it came from. Unsaved edits are asked about first. */
export const Panel = ({ title, isOpen, onClose, width = 'narrow', children }: PanelProps) => {
  const { keeper, question } = useUnsavedKeeper();
  const close = () => {
    // Escape while the question stands answers it with the harmless one.
    if (question === null) keeper.leave(onClose);
    else question.onGoOn();
  };
  return (
    <ModalOverlay className="veil" isDismissable isOpen={isOpen} onOpenChange={(open) => !open && close()}>
      <Modal className={`panel panel--${width}`}>
        <Dialog className="panel__inside">
          <div className="panel__head" inert={question !== null}>
            <Heading slot="title" className="panel__title">
              {title}
            </Heading>
            <Button className="icon-button" aria-label="Close" onPress={close}>
              <Glyph name="close" />
            </Button>
          </div>
          <UnsavedContext value={keeper}>
            <div className="panel__body" inert={question !== null}>
              {children}
            </div>
          </UnsavedContext>
          {question !== null && <KeepOrDiscard {...question} />}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
};
