import type { ReactNode } from 'react';
import { Button, Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { Glyph } from './Glyph.tsx';

export type PanelProps = Readonly<{
  title: string;
  isOpen: boolean;
  onClose: () => void;
  width?: 'narrow' | 'wide' | 'widest';
  children: ReactNode;
}>;

/** A dialog: Escape and the corner close it, and focus returns to where it came from. */
export const Panel = ({ title, isOpen, onClose, width = 'narrow', children }: PanelProps) => (
  <ModalOverlay className="veil" isDismissable isOpen={isOpen} onOpenChange={(open) => !open && onClose()}>
    <Modal className={`panel panel--${width}`}>
      <Dialog className="panel__inside">
        <div className="panel__head">
          <Heading slot="title" className="panel__title">
            {title}
          </Heading>
          <Button className="icon-button" aria-label="Close" onPress={onClose}>
            <Glyph name="close" />
          </Button>
        </div>
        {children}
      </Dialog>
    </Modal>
  </ModalOverlay>
);
