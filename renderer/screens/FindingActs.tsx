import type { Purpose, StationSheet } from '../../core/bridge/records.ts';
import { PressButton } from '../parts/PressButton.tsx';
import type { ReadPlan } from '../state/read-plans.ts';
import { selectBusy, selectMeterIsReady } from '../state/select.ts';
import { type SheetView, sweepsOf } from '../state/sheet-view.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';

export type FindingActsProps = Readonly<{
  view: SheetView;
  sheet: StationSheet;
  plans: readonly ReadPlan[];
  rereadPurpose: Purpose;
}>;

const frequenciesOf = (view: SheetView): readonly number[] =>
  (view.shown?.rows ?? []).flatMap(({ frequencyMhz }) => (frequencyMhz === null ? [] : [frequencyMhz]));

/** The next port with a design that this visit has not read. */
const nextPort = (sheet: StationSheet): string | null => {
  const visitId = sheet.openVisit?.visitId;
  const unread = sheet.station.ports.find(
    ({ name, design }) =>
      design !== undefined && !sweepsOf(sheet, name).some((sweep) => sweep.visitId === visitId),
  );
  return unread?.name ?? null;
};

/** What can be done about a finding; the first button is the one thing to do next. */
export function FindingActs({ view, sheet, rereadPurpose }: FindingActsProps) {
  const meterIsReady = useSelected(selectMeterIsReady);
  const busy = useSelected(selectBusy);
  const { dialogOpened, sweepChosen, portChosen, alternativeChosen } = useActions();
  const { startSweep, fitParts } = useWorkbench();
  const { shown, choice, proposal, port } = view;
  if (shown === null) return null;
  const frequenciesMhz = frequenciesOf(view);
  const read = (purpose: Purpose) =>
    meterIsReady
      ? startSweep({ portName: port.name, purpose, frequenciesMhz })
      : dialogOpened({ open: 'meter' });

  const fitAndRead = async () => {
    if (choice === null || proposal === null) return;
    const fitted = await fitParts(choice.changes, {
      sweepId: shown.summary.sweepId,
      values: choice.values,
      worstBeforeDb: proposal.before.worstDb,
      worstPredictedDb: choice.worstDb,
    });
    if (fitted) await read('as-left');
  };

  if (!view.isNewest)
    return (
      <div className="acts">
        <PressButton size="visit" onPress={() => sweepChosen(null)}>
          Back to the newest sweep
        </PressButton>
      </div>
    );
  if (!view.ofThisVisit || sheet.openVisit === null)
    return (
      <div className="acts">
        <PressButton rank="do" size="visit" onPress={() => dialogOpened({ open: 'begin-visit' })} autoFocus>
          Begin the visit
        </PressButton>
      </div>
    );
  const readAgain = (rank: 'do' | 'quiet') => (
    <PressButton rank={rank} size={rank === 'do' ? 'visit' : 'usual'} onPress={() => read(rereadPurpose)}>
      Read again
    </PressButton>
  );
  if (view.changedSince !== null) return <div className="acts">{readAgain('do')}</div>;
  if (choice !== null && proposal !== null && choice.changes.length > 0) {
    const others = proposal.alternatives.length;
    return (
      <div className="acts acts--pair">
        <PressButton rank="do" size="visit" onPress={fitAndRead} isDisabled={busy === 'fit'} autoFocus>
          Parts fitted, read again
        </PressButton>
        {others > 0 && (
          <PressButton size="visit" onPress={() => dialogOpened({ open: 'others' })}>
            {others === 1 ? '1 other' : `${others} others`}
          </PressButton>
        )}
        {choice !== proposal.recommended ? (
          <PressButton rank="quiet" onPress={() => alternativeChosen(null)}>
            Back to what is recommended
          </PressButton>
        ) : (
          readAgain('quiet')
        )}
      </div>
    );
  }
  const next = nextPort(sheet);
  return (
    <div className="acts">
      {next === null ? (
        <PressButton rank="do" size="visit" onPress={() => dialogOpened({ open: 'end-visit' })}>
          End the visit
        </PressButton>
      ) : (
        <PressButton rank="do" size="visit" onPress={() => portChosen(next)}>
          {`On to the ${next}`}
        </PressButton>
      )}
      {readAgain('quiet')}
    </div>
  );
}
