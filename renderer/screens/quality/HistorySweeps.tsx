import { useState } from 'react';
import { Button, Checkbox } from 'react-aria-components';
import { oneDecimal, signedDecimal, temperature } from '../../format.ts';
import { howSweepFigures } from '../../how/records.ts';
import { HowButton } from '../../parts/HowButton.tsx';
import { Mark } from '../../parts/Mark.tsx';
import { PressButton } from '../../parts/PressButton.tsx';
import { purposeWords } from '../../state/quality-view.ts';
import { dayWords, maybeDb } from '../../state/quality-words.ts';
import { selectTemperatureUnit } from '../../state/select.ts';
import { useSelected, useWorkbench } from '../../state/use-workbench.ts';
import type { OpenHistory } from './HistoryScreen.tsx';

/** Every sweep of the history, the newest first: one opens it, two are compared. */
export function HistorySweeps({ open: { history, compared } }: Readonly<{ open: OpenHistory }>) {
  const [picked, setPicked] = useState<readonly string[]>([]);
  const unit = useSelected(selectTemperatureUnit);
  const { openSweepOf, compareTwo } = useWorkbench();
  const [one, other] = picked;
  const design = history.station.ports.find(({ name }) => name === history.portName)?.design;
  const pick = (sweepId: string, isPicked: boolean) =>
    // The third takes the place of the one that was picked first.
    setPicked(isPicked ? [...picked, sweepId].slice(-2) : picked.filter((known) => known !== sweepId));
  return (
    <section className="history__sweeps" aria-label="Every sweep of it">
      <div className="history__sweeps-head">
        <h2>Sweeps</h2>
        {compared !== null ? (
          <PressButton onPress={() => compareTwo(null)}>Back to all sweeps</PressButton>
        ) : (
          <PressButton
            isDisabled={one === undefined || other === undefined}
            onPress={() => one !== undefined && other !== undefined && compareTwo([one, other])}
          >
            {other === undefined ? 'Tick two to compare' : 'Compare the two'}
          </PressButton>
        )}
      </div>
      <ol className="history__list">
        {history.sweeps.toReversed().map((sweep) => {
          const { sweepId, figures, ambientC, reserveDb } = sweep;
          const day = dayWords(Date.parse(sweep.at));
          const purpose = purposeWords[sweep.purpose];
          return (
            <li key={sweepId} className="history__sweep-row">
              <Checkbox
                className="tick-box"
                aria-label={`Compare ${day}, ${purpose}`}
                isSelected={picked.includes(sweepId)}
                onChange={(isPicked) => pick(sweepId, isPicked)}
              >
                <span className="tick-box__box" aria-hidden="true" />
              </Checkbox>
              <Button
                className="history__open"
                onPress={() => openSweepOf(history.station.id, history.portName, sweepId)}
              >
                <Mark
                  verdict={figures?.verdict ?? 'unknown'}
                  pointing={(figures?.worstDb ?? 0) > 0 ? 'up' : 'down'}
                />
                <span>
                  <strong>{day}</strong>
                  <small>
                    {purpose}
                    {ambientC === null ? '' : `, ${temperature(ambientC, unit)}`}
                    {reserveDb === null ? '' : `, reserve ${maybeDb(reserveDb)}`}
                    {figures === null ? `, ${sweep.why ?? 'not judged'}` : ''}
                  </small>
                </span>
              </Button>
              {figures !== null && (
                <HowButton
                  how={howSweepFigures(`${day}, ${purpose}`, figures, design)}
                  label={`Worst channel ${signedDecimal(figures.worstDb)}, flatness ${oneDecimal(figures.flatnessDb)}, ${day}`}
                  className="history__figures"
                >
                  <strong className="how-button__figure">{signedDecimal(figures.worstDb)}</strong>
                  <small>{`flat ${oneDecimal(figures.flatnessDb)}`}</small>
                </HowButton>
              )}
            </li>
          );
        })}
      </ol>
    </section>
  );
}
