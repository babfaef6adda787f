import type { ReactNode } from 'react';
import { OpeningPicture } from '../parts/OpeningPicture.tsx';
import { PressButton } from '../parts/PressButton.tsx';

export type FirstStartProps = Readonly<{
  onDemo: () => void;
  isLoading: boolean;
  openFile: ReactNode;
  others: ReactNode;
}>;

/** The first page anybody sees: what this is, and the shortest way to a proposal. */
export const FirstStart = ({ onDemo, isLoading, openFile, others }: FirstStartProps) => (
  <main className="first-start">
    <div className="first-start__words">
      <h1>
        Read the station. <br />
        See what to change. <br />
        Prove it.
      </h1>
      <p>
        Quillmere is an invented harbour town: five amplifier stations and a bench module, each with its own
        trouble, and a simulated meter that reads what you plug in.
      </p>
      <div className="first-start__ways">
        <PressButton rank="do" size="visit" onPress={onDemo} isDisabled={isLoading} autoFocus>
          {isLoading ? 'Setting up Quillmere' : 'Try it on the invented network'}
        </PressButton>
        {openFile}
        {others}
      </div>
      <p className="first-start__small">
        A station of your own is drawn under New station, or its file is dropped on this page; nothing leaves
        this machine.
      </p>
    </div>
    <OpeningPicture />
  </main>
);
