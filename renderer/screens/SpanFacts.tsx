import { bareMhz, oneDecimal, plugIn, temperature } from '../format.ts';
import { howCheck, howDay, howEqualizer, type SpanUnits } from '../how/span.ts';
import { HowButton } from '../parts/HowButton.tsx';
import { Mark } from '../parts/Mark.tsx';
import type { SpanView } from '../state/span-view.ts';
import { checkWords, equalizerWords } from '../state/span-words.ts';

export type SpanFactsProps = Readonly<{ view: SpanView; units: SpanUnits }>;

/** The span in figures: what it loses over the year, what gives it back, and what the sweeps say. */
export function SpanFacts({ view, units }: SpanFactsProps) {
  const { figures, check, fitted } = view;
  const { equalizer } = figures;
  const said = checkWords(view, units.length);
  const isGood = check?.finding === 'plausible' && !check.isUneven;
  return (
    <section className="span-facts" aria-label="The span in figures">
      <table className="numbers numbers--close span-facts__year">
        <thead>
          <tr>
            <th scope="col">cable</th>
            <th scope="col">{`${bareMhz(figures.highMhz)} MHz`}</th>
            <th scope="col">{`${bareMhz(figures.lowMhz)} MHz`}</th>
            <th scope="col">tilt</th>
          </tr>
        </thead>
        <tbody>
          {figures.days.map(({ day, ambientC, lossHighDb, lossLowDb, tiltDb }) => (
            <tr key={day} className={`span-facts__day span-facts__day--${day}`}>
              <th scope="row">{temperature(ambientC, units.temperature)}</th>
              <td>
                <HowButton how={howDay(view, day, units)} label={`${oneDecimal(lossHighDb)} dB, ${day}`}>
                  <span className="how-button__number">{oneDecimal(lossHighDb)}</span>
                </HowButton>
              </td>
              <td>{oneDecimal(lossLowDb)}</td>
              <td>{oneDecimal(tiltDb)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <div className="span-facts__block">
        <p className="lead">Equalizers for it today</p>
        <p className="span-facts__big">
          <HowButton
            how={howEqualizer(view)}
            label={'valueDb' in equalizer ? `${oneDecimal(equalizer.valueDb)} dB` : 'none'}
          >
            <span className="how-button__number">
              {'valueDb' in equalizer ? oneDecimal(equalizer.valueDb) : 'none'}
            </span>
          </HowButton>
          <span className="span-facts__beside">
            {fitted.parts.length === 0
              ? 'dB, none fitted'
              : `dB, fitted ${fitted.parts.map(({ kind, valueDb }) => `${kind === 'cable-simulator' ? '\u2212' : ''}${plugIn(valueDb)}`).join(' + ')}`}
          </span>
        </p>
        <p className="quiet">{equalizerWords(view)}</p>
      </div>
      <div className="span-facts__block">
        <p className="lead">What the sweeps say of it</p>
        {check === null ? (
          <p className="quiet">
            {view.unchecked === ''
              ? 'Read the forward input of this station: the loss that is measured is then held against the one computed.'
              : view.unchecked}
          </p>
        ) : (
          <>
            <p className="span-facts__said">
              <Mark verdict={isGood ? 'pass' : 'fail'} pointing={check.excessHighDb < 0 ? 'down' : 'up'} />
              <HowButton how={howCheck(view, units)} label={said.headline} className="how-button--quiet">
                <span className="how-button__number">{said.headline}</span>
              </HowButton>
            </p>
            <p>{said.help}</p>
            {check.isUneven && check.finding !== 'plausible' && (
              <p>{`And uneven by ${oneDecimal(check.unevenDb)} dB: a connector or a splice.`}</p>
            )}
          </>
        )}
      </div>
    </section>
  );
}
