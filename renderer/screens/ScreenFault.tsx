import { capital } from '../format.ts';
import { PressButton } from '../parts/PressButton.tsx';
import { useActions, useWorkbench } from '../state/use-workbench.ts';

export type ScreenFaultProps = Readonly<{ fault: string }>;

/** A screen that fails is the program's mistake and not the end of the visit: what was read is kept, and there is a way on. */
export function ScreenFault({ fault }: ScreenFaultProps) {
  const { designWent, dialogOpened, recordsWent } = useActions();
  const { leaveStation } = useWorkbench();
  const leave = () => {
    designWent({ at: 'closed' });
    dialogOpened({ open: 'none' });
    recordsWent('closed');
    void leaveStation();
  };
  return (
    <main className="plain-page">
      <h1>This screen could not be drawn.</h1>
      <p className="plain-page__why">{`${capital(fault)}.`}</p>
      <p>
        That is a fault of the program. What was read is on disk, and a reading that is under way goes on.
      </p>
      <div className="plain-page__ways">
        <PressButton rank="do" size="visit" onPress={leave} autoFocus>
          Back to the stations
        </PressButton>
        <PressButton size="visit" onPress={() => location.reload()}>
          Draw it again
        </PressButton>
      </div>
    </main>
  );
}
