import type { ReactNode } from 'react';
import { Dialog, Modal, ModalOverlay } from 'react-aria-components';
import { KeepOrDiscard } from './KeepOrDiscard.tsx';
import { UnsavedContext } from './unsaved.ts';
import { useUnsavedKeeper } from './use-unsaved-keeper.ts';

/** Around screens that can be edited: whoever leaves one with edits that nothing has kept is asked about them first. */
export function AskFirst({ children }: Readonly<{ children: ReactNode }>) {
  const { keeper, question } = useUnsavedKeeper();
  return (
    <UnsavedContext value={keeper}>
      {children}
      {question !== null && (
        <ModalOverlay className="veil" isDismissable isOpen onOpenChange={question.onGoOn}>
          <Modal className="panel panel--narrow">
            <Dialog className="panel__inside" aria-label="Unsaved changes">
              <KeepOrDiscard {...question} />
            </Dialog>
          </Modal>
        </ModalOverlay>
      )}
    </UnsavedContext>
  );
}
