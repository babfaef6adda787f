import type { StationSheet } from '../../core/bridge/records.ts';
import type { Design } from '../../core/files/station.ts';
import { explainProposal } from '../../core/propose/explain.ts';
import type { Choice } from '../../core/propose/objective.ts';
import type { Proposal } from '../../core/propose/propose.ts';
import { decimals, sizeDb } from '../format.ts';
import { howPrediction, predictedGoodToDb } from '../how/prediction.ts';
import { howBeyondTruck, howFloor, howStageInput, howTrims, howWhy } from '../how/proposal.ts';
import { HowText } from '../parts/HowText.tsx';
import { Mark } from '../parts/Mark.tsx';
import { PlugInSwap } from '../parts/PlugInSwap.tsx';
import { stageWords } from '../parts/stage-words.ts';
import { TrimTurn } from '../parts/TrimTurn.tsx';
import { selectLevelUnit } from '../state/select.ts';
import type { SheetView } from '../state/sheet-view.ts';
import { useSelected } from '../state/use-workbench.ts';

export type ProposalBlockProps = Readonly<{
  view: SheetView;
  sheet: StationSheet;
  proposal: Proposal;
  choice: Choice;
  design: Design;
  /** True where everything must be small, so that the button stays in sight. */
  crowded: boolean;
}>;

/** Why, what to change, what it will give, and what no plug-in mends. */
export function ProposalBlock({ view, sheet, proposal, choice, design, crowded }: ProposalBlockProps) {
  const unit = useSelected(selectLevelUnit);
  const { changes, withTrims } = choice;
  const isRecommended = choice === proposal.recommended;
  const turns = changes.length === 0 && withTrims !== undefined ? withTrims.moves : [];
  const { stageInput } = sheet.station;
  // The limit says something only about parts that the signal passes on its way to the stage.
  const touchesStage = stageInput?.through.some((name) => view.port.through.includes(name)) === true;
  const trimNote =
    changes.length > 0 && withTrims !== undefined
      ? `Then the trims bring it to ${sizeDb(withTrims.worstDb)}.`
      : null;
  const fromTruck = view.by.truck !== null && (changes.length > 0 || !proposal.feasible);
  const stageNote =
    proposal.stageInput !== null &&
    stageInput !== undefined &&
    ((touchesStage && changes.length > 0) || !proposal.feasible)
      ? { note: proposal.stageInput, limit: stageInput }
      : null;
  const beyond = isRecommended ? (proposal.beyondTruck ?? null) : null;
  const floor = `${decimals(proposal.remains.floorDb, 1)} dB`;
  const hasWork = changes.length > 0 || turns.length > 0;
  return (
    <div className={hasWork ? 'do' : 'do do--calm'}>
      {hasWork && (
        <p className="do__lead">
          {isRecommended ? (
            <HowText how={howWhy(proposal.why, proposal.before)} text={proposal.why.text} />
          ) : (
            'Instead of what is recommended'
          )}
        </p>
      )}
      {changes.length > 0 && (
        <ol className={crowded ? 'swaps swaps--many' : 'swaps'} aria-label="Parts to change">
          {changes.map((change) => (
            <PlugInSwap key={change.position} {...change} />
          ))}
        </ol>
      )}
      {turns.length > 0 && (
        <ol className="swaps" aria-label="Trims to turn">
          {turns.map((move) => (
            <TrimTurn key={move.name} {...move} />
          ))}
        </ol>
      )}
      <Gain view={view} proposal={proposal} choice={choice} design={design} turned={turns.length > 0} />
      {isRecommended && proposal.remains.needsRepair && (
        <p className="remains">
          <Mark verdict="fail" pointing="up" />{' '}
          <span>
            <HowText how={howFloor(proposal.remains, design)} text={proposal.remains.text} figure={floor} />
          </span>
        </p>
      )}
      {beyond !== null && (
        <p className="quiet">
          <HowText
            how={howBeyondTruck(beyond, proposal)}
            text={beyond.text}
            figure={sizeDb(beyond.choice.worstDb).replace('\u00A0', ' ')}
          />
        </p>
      )}
      {(trimNote !== null || fromTruck || stageNote !== null) && (
        <p className="quiet">
          {trimNote !== null && (
            <>
              <HowText how={howTrims(choice, proposal, design)} text={trimNote} />{' '}
            </>
          )}
          {fromTruck && 'From the truck. '}
          {stageNote !== null && (
            <HowText
              how={howStageInput(stageNote.note, stageNote.limit, unit)}
              text={stageWords(stageNote.note, stageNote.limit.port, unit)}
            />
          )}
        </p>
      )}
    </div>
  );
}

type GainProps = Pick<ProposalBlockProps, 'view' | 'proposal' | 'choice' | 'design'> &
  Readonly<{ turned: boolean }>;

/** What it will give; pressed, how that was reckoned. */
function Gain({ view, proposal, choice, design, turned }: GainProps) {
  const after = turned ? (choice.withTrims ?? choice) : choice;
  // What no plug-in mends is said by itself then, and not a second time here.
  const staysSo = choice.changes.length === 0 && !turned;
  const isShort = turned || (choice === proposal.recommended && proposal.remains.needsRepair);
  const [nowDb, thenDb] = [sizeDb(proposal.before.worstDb), sizeDb(after.worstDb)];
  if (staysSo && isShort)
    return (
      <p className="gain">{`No change of plug-ins is worth it: the worst channel stays ${nowDb} from design.`}</p>
    );
  const words = isShort
    ? `Worst channel ${nowDb} \u2192 ${thenDb} from design.`
    : explainProposal({ ...proposal, recommended: choice, stageInput: null }, design);
  if (staysSo) return <p className="gain">{words}</p>;
  const points = choice === proposal.recommended ? (proposal.predicted ?? []) : [];
  const how = turned
    ? howTrims(choice, proposal, design)
    : howPrediction(choice, proposal.count, design, predictedGoodToDb(points, view.targets));
  // The first sentence holds the numbers: it is what can be pressed for.
  return (
    <p>
      <HowText how={how} text={words} figure={words.replace(/ from design\..*$/, '')} />
    </p>
  );
}
