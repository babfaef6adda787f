import type { Purpose, StationSheet } from '../../core/bridge/records.ts';
import { PressButton } from '../parts/PressButton.tsx';
import { counts, sweepsOf } from '../state/port-sweeps.ts';
import { selectBusy } from '../state/select.ts';
import type { SheetView } from '../state/sheet-view.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';

export type FindingActsProps = Readonly<{
  view: SheetView;
  sheet: StationSheet;
  read: (purpose: Purpose) => void;
}>;

/** The next port with a design that this visit has not read. */
const nextPort = (sheet: StationSheet): string | null => {
  const visitId = sheet.openVisit?.visitId;
  const unread = sheet.station.ports.find(
    ({ name, design }) =>
      design !== undefined &&
      !sweepsOf(sheet, name).some((sweep) => counts(sweep) && sweep.visitId === visitId),
  );
  return unread?.name ?? null;
};

/** As exact as the archive keeps it. */
const thousandth = (byDb: number): number => Math.round(byDb * 1000) / 1000;

/** What can be done about a finding; the first button is the one thing to do next. */
export function FindingActs({ view, sheet, read }: FindingActsProps) {
  const busy = useSelected(selectBusy);
  const { dialogOpened, sweepChosen, portChosen, choicePicked } = useActions();
  const { fitParts, turnTrims } = useWorkbench();
  const { shown, choice, proposal } = view;
  if (shown === null) return null;
  const fitAndRead = async () => {
    if (choice === null || proposal === null) return;
    const fitted = await fitParts(choice.changes, {
      sweepId: shown.summary.sweepId,
      values: choice.values,
      worstBeforeDb: proposal.before.worstDb,
      worstPredictedDb: choice.worstDb,
    });
    if (fitted) read('as-left');
  };

  const turnAndRead = async () => {
    const moves = choice?.withTrims?.moves ?? [];
    const turns = moves.map(({ name, kind, atMhz, byDb }) => ({ name, kind, atMhz, byDb: thousandth(byDb) }));
    if (await turnTrims(shown.summary.sweepId, turns)) read('as-left');
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
  if (view.changedSince !== null)
    return (
      <div className="acts">
        <PressButton rank="do" size="visit" onPress={() => read('as-left')} autoFocus>
          Read again
        </PressButton>
      </div>
    );
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
        {choice !== proposal.recommended && (
          <PressButton rank="quiet" onPress={() => choicePicked('recommended')}>
            Back to what is recommended
          </PressButton>
        )}
      </div>
    );
  }
  if (choice !== null && choice.changes.length === 0 && choice.withTrims !== undefined)
    return (
      <div className="acts">
        <PressButton rank="do" size="visit" onPress={turnAndRead} isDisabled={busy === 'fit'} autoFocus>
          Trims turned, read again
        </PressButton>
      </div>
    );
  const next = nextPort(sheet);
  const whatIf = view.causeFirst && (
    <PressButton size="visit" onPress={() => dialogOpened({ open: 'others' })}>
      What a change would give
    </PressButton>
  );
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
      {whatIf}
    </div>
  );
}
