import type { Purpose } from '../../core/bridge/records.ts';
import { capital, counted } from '../format.ts';
import { Mark } from '../parts/Mark.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { selectMeterIsReady, selectVisitIsOpen } from '../state/select.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';

export type CutShortProps = Readonly<{
  portName: string;
  purpose: Purpose;
  readingCount: number;
  /** Read as well, but refused by the disk so far. */
  inMemory: number;
  plannedCount: number;
  reason: string;
  frequenciesMhz: readonly number[];
}>;

/** A sweep that did not reach its end: what is kept, what happened, and the way on. */
export function CutShort({
  portName,
  purpose,
  readingCount,
  inMemory,
  plannedCount,
  reason,
  frequenciesMhz,
}: CutShortProps) {
  const meterIsReady = useSelected(selectMeterIsReady);
  const visitIsOpen = useSelected(selectVisitIsOpen);
  const { dialogOpened } = useActions();
  const { startSweep } = useWorkbench();
  return (
    <>
      <p className="lead">{`Partial sweep, ${portName}`}</p>
      <h1>{`Cut short after ${readingCount + inMemory} of ${plannedCount}`}</h1>
      <p className={meterIsReady ? 'said' : 'said said--bad'}>
        <Mark verdict={meterIsReady ? 'undecided' : 'fail'} pointing="up" />
        <span>{capital(reason)}</span>
      </p>
      <p className="quiet">
        {readingCount + inMemory === 0
          ? 'Nothing had been read yet.'
          : `${counted(readingCount, 'reading is', 'readings are')} kept${inMemory === 0 ? '' : `, ${counted(inMemory, 'is', 'are')} only in memory`}, marked partial. A partial sweep is not judged and gives no proposal.`}
      </p>
      <div className="acts">
        {!visitIsOpen ? (
          <PressButton rank="do" size="visit" onPress={() => dialogOpened({ open: 'begin-visit' })}>
            Begin the visit
          </PressButton>
        ) : meterIsReady ? (
          <PressButton
            rank="do"
            size="visit"
            onPress={() => startSweep({ portName, purpose, frequenciesMhz })}
            autoFocus
          >
            Read again
          </PressButton>
        ) : (
          <PressButton rank="do" size="visit" onPress={() => dialogOpened({ open: 'meter' })} autoFocus>
            Connect the meter again
          </PressButton>
        )}
      </div>
    </>
  );
}
