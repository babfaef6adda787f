import type { StationSheet } from '../../core/bridge/records.ts';
import { setUpResult } from '../../core/set-up/result.ts';
import { foundOut } from '../../core/set-up/state.ts';
import { oneDecimal, sizeDb } from '../format.ts';
import { howRange, howReserveLeft } from '../how/gain-control.ts';
import { HowText } from '../parts/HowText.tsx';
import { Mark } from '../parts/Mark.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { rangeVerdictWords } from '../state/range-words.ts';
import { reserveSaid, setUpConditions } from '../state/reserve-said.ts';
import { selectLevelUnit } from '../state/select.ts';
import type { SetUpView } from '../state/set-up-view.ts';
import { useJudgedBy } from '../state/use-judged-by.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';

/** What the set-up came to, and what stays open in the record. */
export function SetUpDone({ sheet, view }: Readonly<{ sheet: StationSheet; view: SetUpView }>) {
  const { placeChosen } = useActions();
  const by = useJudgedBy(sheet.station.id);
  const unit = useSelected(selectLevelUnit);
  const read = {
    maxDbmv: foundOut(view.state, 'max-gain', 'maxDbmv'),
    setDbmv: foundOut(view.state, 'ambient', 'setDbmv') ?? foundOut(view.state, 'back-off', 'setDbmv'),
  };
  const result = setUpResult(view.record.plan, view.state, setUpConditions(sheet, view.record, by));
  return (
    <div className="set-up__done">
      <p className="lead">{`${view.stepCount} steps`}</p>
      <h1>
        {result.reserveLeftDb === null
          ? 'Every step is over'
          : `Set, with ${sizeDb(result.reserveLeftDb)} of reserve`}
      </h1>
      {result.reserve !== null && (
        <p className="said">
          <Mark verdict={result.reserve.verdict} pointing={result.reserve.side === 'small' ? 'down' : 'up'} />
          <span>
            <HowText how={howReserveLeft(result.reserve, read, unit)} text={reserveSaid(result.reserve)} />
          </span>
        </p>
      )}
      {result.range !== null && (
        <p className="said">
          <Mark verdict={result.range.verdict} pointing="up" />
          <span>
            <HowText
              how={howRange(result.range)}
              text={`Range ${rangeVerdictWords[result.range.verdict]}: up ${oneDecimal(result.range.upDb)}, down ${oneDecimal(result.range.downDb)}, in all ${sizeDb(result.range.totalDb)}.`}
            />
          </span>
        </p>
      )}
      {result.skipped.length > 0 && (
        <>
          <p className="do__lead">Skipped</p>
          <ul className="season__help">
            {result.skipped.map(({ title, reason }) => (
              <li key={title}>{`${title}: ${reason}`}</li>
            ))}
          </ul>
        </>
      )}
      <p className="quiet">
        Everything stands in the visit: readings, decisions, skipped steps and their reasons.
      </p>
      <div className="set-up__acts">
        <PressButton rank="do" size="visit" onPress={() => placeChosen('season')} autoFocus>
          See the year ahead
        </PressButton>
        <PressButton size="visit" onPress={() => placeChosen('station')}>
          To the station sheet
        </PressButton>
      </div>
    </div>
  );
}
