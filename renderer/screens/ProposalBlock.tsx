import type { StationSheet } from '../../core/bridge/records.ts';
import type { Design } from '../../core/files/station.ts';
import { explainProposal } from '../../core/propose/explain.ts';
import type { Choice } from '../../core/propose/objective.ts';
import type { Proposal } from '../../core/propose/propose.ts';
import { sizeDb } from '../format.ts';
import { HowButton } from '../parts/HowButton.tsx';
import { howPrediction, predictedGoodToDb } from '../parts/how-prediction.ts';
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
  const notes = [
    ...(changes.length > 0 && withTrims !== undefined
      ? [`Then the trims bring it to ${sizeDb(withTrims.worstDb)}.`]
      : []),
    ...(view.by.truck !== null && (changes.length > 0 || !proposal.feasible) ? ['From the truck.'] : []),
    ...(proposal.stageInput !== null &&
    stageInput !== undefined &&
    ((touchesStage && changes.length > 0) || !proposal.feasible)
      ? [stageWords(proposal.stageInput, stageInput.port, unit)]
      : []),
  ];
  const hasWork = changes.length > 0 || turns.length > 0;
  return (
    <div className={hasWork ? 'do' : 'do do--calm'}>
      {hasWork && (
        <p className="do__lead">{isRecommended ? proposal.why.text : 'Instead of what is recommended'}</p>
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
          <Mark verdict="fail" pointing="up" /> <span>{proposal.remains.text}</span>
        </p>
      )}
      {notes.length > 0 && <p className="quiet">{notes.join(' ')}</p>}
    </div>
  );
}

type GainProps = Pick<ProposalBlockProps, 'view' | 'proposal' | 'choice' | 'design'> &
  Readonly<{ turned: boolean }>;

/** What it will give; pressed, how that was reckoned. */
function Gain({ view, proposal, choice, design, turned }: GainProps) {
  const after = turned ? (choice.withTrims ?? choice) : choice;
  // What no plug-in mends is said by itself then, and not a second time here.
  const words =
    turned || (choice === proposal.recommended && proposal.remains.needsRepair)
      ? `Worst channel ${sizeDb(proposal.before.worstDb)} \u2192 ${sizeDb(after.worstDb)} from design.`
      : explainProposal({ ...proposal, recommended: choice, stageInput: null }, design);
  if (choice.changes.length === 0 && !turned) return <p className="gain">{words}</p>;
  const points = choice === proposal.recommended ? (proposal.predicted ?? []) : [];
  const how = howPrediction(choice, proposal.count, design, predictedGoodToDb(points, view.targets));
  return (
    <HowButton how={how} label={words} className="how-button--words">
      {/* The first sentence holds the numbers: it is what can be pressed for. */}
      <span>
        <span className="how-button__number">{words.replace(/ from design\..*$/, '')}</span>
        {/ from design\..*$/.exec(words)?.[0] ?? ''}
      </span>
    </HowButton>
  );
}
