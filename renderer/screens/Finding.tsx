import type { Purpose, StationSheet } from '../../core/bridge/records.ts';
import { asWritten, capital, counted, day, level, signedDb } from '../format.ts';
import { howLeftOut, howSignals } from '../how/rows.ts';
import { CauseFirst } from '../parts/CauseFirst.tsx';
import { FindingTable } from '../parts/FindingTable.tsx';
import { findingRows, lineRows } from '../parts/finding-rows.ts';
import { HeldAgainst } from '../parts/HeldAgainst.tsx';
import { HowText } from '../parts/HowText.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { fitNotes, signalWords } from '../parts/signal-words.ts';
import { selectLevelUnit, selectMeterIsReady } from '../state/select.ts';
import type { SheetView } from '../state/sheet-view.ts';
import { useActions, useBench, useSelected } from '../state/use-workbench.ts';
import { FindingActs } from './FindingActs.tsx';
import { purposeWords } from './Picture.tsx';
import { ProposalBlock } from './ProposalBlock.tsx';
import { SweepFindings } from './SweepFindings.tsx';

export type FindingProps = Readonly<{
  view: SheetView;
  sheet: StationSheet;
  rereadPurpose: Purpose;
}>;

/** The finding in words, the figures under it, and what to change. */
export function Finding({ view, sheet, rereadPurpose }: FindingProps) {
  const { now, workbench } = useBench();
  const unit = useSelected(selectLevelUnit);
  const meterIsReady = useSelected(selectMeterIsReady);
  const { dialogOpened } = useActions();
  const { shown, standing, fit, design, choice, proposal, held } = view;
  if (shown === null) return null;
  const purpose = capital(purposeWords[shown.summary.purpose]);
  const when = view.ofThisVisit ? '' : `, ${day(shown.summary.startedAt, now())}`;
  const headline =
    standing?.headline ??
    (fit === null
      ? 'This sweep can’t be judged'
      : `${level(fit.highDbmv, unit)} at the top, tilt ${signedDb(fit.tiltDb)}`);
  const line = standing?.fit ?? fit;
  const notes = line === null ? [] : fitNotes(line, standing !== null);
  const isShape = view.causeFirst || (choice !== null && proposal?.remains.needsRepair === true);
  const changes = choice?.changes ?? [];
  // A finding, its figures and a list of changes must still leave the button in sight on a small screen.
  const crowded = view.causeFirst || changes.length > 1 || (changes.length > 0 && held?.agrees === false);
  const read = (as: Purpose) => {
    const frequenciesMhz = shown.rows.flatMap(({ frequencyMhz }) =>
      frequencyMhz === null ? [] : [frequencyMhz],
    );
    if (meterIsReady) void workbench.startSweep({ portName: view.port.name, purpose: as, frequenciesMhz });
    else dialogOpened({ open: 'meter' });
  };
  // Where reading again is the one thing to do, the large button says so and this one would repeat it.
  const again = view.isNewest && view.ofThisVisit && view.changedSince === null;
  return (
    <>
      <div className="side__lead">
        <p className="lead">{`${purpose}, ${view.port.name}${when}`}</p>
        {again && (
          <PressButton rank="quiet" onPress={() => read(rereadPurpose)}>
            Read again
          </PressButton>
        )}
      </div>
      <h1 className={crowded ? 'side__crowded' : ''}>{asWritten(headline)}</h1>
      {view.unjudged !== null && <p className="quiet">{view.unjudged}</p>}
      {standing !== null && design !== null && (
        <FindingTable
          caption="How it stands"
          rows={findingRows(standing, design, unit, view.applied?.source ?? null)}
        />
      )}
      {standing === null && fit !== null && <FindingTable caption="Its line" rows={lineRows(fit, unit)} />}
      {standing?.signals !== undefined && (
        <p className="quiet">
          <HowText how={howSignals(standing.signals)} text={signalWords(standing.signals)} />
        </p>
      )}
      {line !== null && line.excluded.length > 0 && (
        <p className="quiet">
          <HowText
            how={howLeftOut(line.excluded, line.count)}
            text={`${counted(line.excluded.length, 'row was', 'rows were')} left out: no carrier at its level.`}
          />
        </p>
      )}
      {notes.map((note) => (
        <p key={note} className="quiet">
          {asWritten(note)}
        </p>
      ))}
      {held !== null && <HeldAgainst held={held} />}
      {view.changedSince !== null && (
        <div className="do">
          <p className="do__lead">Parts fitted since this sweep</p>
          <p className="quiet">The dotted line is what they are to give. Read again to prove it.</p>
        </div>
      )}
      {choice !== null && proposal !== null && design !== null && (
        <ProposalBlock
          view={view}
          sheet={sheet}
          proposal={proposal}
          choice={choice}
          design={design}
          crowded={crowded}
        />
      )}
      {isShape && <SweepFindings rows={shown.rows} />}
      {view.causeFirst && proposal !== null && design !== null && (
        <CauseFirst proposal={proposal} design={design} />
      )}
      {view.unproposed !== null && <p className="quiet">{view.unproposed}</p>}
      <FindingActs view={view} sheet={sheet} read={read} />
    </>
  );
}
