import { capital } from '../format.ts';
import { PressButton } from '../parts/PressButton.tsx';

export type LostLinkProps = Readonly<{ why: string }>;

/** The program behind the page is gone. Nothing that was read is: it was on disk before it was shown. */
export const LostLink = ({ why }: LostLinkProps) => (
  <main className="plain-page">
    <h1>The workbench has stopped.</h1>
    <p className="plain-page__why">{`${capital(why)}.`}</p>
    <p>Every reading that was shown here is on disk. Start the program again and go on.</p>
    <PressButton rank="do" size="visit" onPress={() => location.reload()}>
      Try again
    </PressButton>
  </main>
);
