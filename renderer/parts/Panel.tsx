import { type ReactNode, useCallback, useMemo, useRef, useState } from 'react';
import { Button, Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { Glyph } from './Glyph.tsx';
import { KeepOrDiscard } from './KeepOrDiscard.tsx';
import { type Unsaved, UnsavedContext } from './unsaved.ts';

export type PanelProps = Readonly<{
  title: string;
  isOpen: boolean;
  onClose: () => void;
  width?: 'narrow' | 'wide' | 'widest';
  children: ReactNode;
}>;

/** What was to be done when the question came up. */
type Asked = Readonly<{ unsaved: Unsaved; go: () => void }>;

/** A dialog: Escape and the corner close it, and focus returns to where it came from. Unsaved edits are asked about first. */
export const Panel = ({ title, isOpen, onClose, width = 'narrow', children }: PanelProps) => {
  const held = useRef<Unsaved | null>(null);
  const [asked, setAsked] = useState<Asked | null>(null);
  const leave = useCallback((go: () => void) => {
    const unsaved = held.current;
    if (unsaved?.isChanged === true) setAsked({ unsaved, go });
    else go();
  }, []);
  const keeper = useMemo(
    () => ({
      hold: (unsaved: Unsaved | null) => {
        held.current = unsaved;
      },
      leave,
    }),
    [leave],
  );
  const close = () => {
    // Escape while the question stands answers it with the harmless one.
    if (asked === null) leave(onClose);
    else setAsked(null);
  };
  return (
    <ModalOverlay className="veil" isDismissable isOpen={isOpen} onOpenChange={(open) => !open && close()}>
      <Modal className={`panel panel--${width}`}>
        <Dialog className="panel__inside">
          <div className="panel__head" inert={asked !== null}>
            <Heading slot="title" className="panel__title">
              {title}
            </Heading>
            <Button className="icon-button" aria-label="Close" onPress={close}>
              <Glyph name="close" />
            </Button>
          </div>
          <UnsavedContext value={keeper}>
            <div className="panel__body" inert={asked !== null}>
              {children}
            </div>
          </UnsavedContext>
          {asked !== null && (
            <KeepOrDiscard
              trouble={asked.unsaved.trouble}
              onKeep={async () => {
                const kept = await asked.unsaved.keep();
                setAsked(null);
                if (kept) asked.go();
              }}
              onDiscard={() => {
                held.current = null;
                setAsked(null);
                asked.go();
              }}
              onGoOn={() => setAsked(null)}
            />
          )}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
};
