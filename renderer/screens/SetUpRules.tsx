import { adviseGainControl, DISAGREE_DB } from '../../core/gain-control/advise.ts';
import { basisWords } from '../../core/gain-control/basis.ts';
import { RANGE_LIMITS, RANGE_LIMITS_HOLD } from '../../core/gain-control/range.ts';
import { MIDDLE_C, PER_DEGREE_C } from '../../core/gain-control/span-offset.ts';
import { mhz, oneDecimal, signedDb, sizeDb, temperature } from '../format.ts';
import { aDegree, middleWords } from '../how/degrees.ts';
import { howAmbientRule, howRangeLimits, howReserveRule, howSpanOffset } from '../how/gain-control.ts';
import { HowText } from '../parts/HowText.tsx';
import { Mark } from '../parts/Mark.tsx';
import { selectTemperatureUnit } from '../state/select.ts';
import { useSelected } from '../state/use-workbench.ts';

export type SetUpRulesProps = Readonly<{
  topMhz: number | null;
  ambientC: number | null;
  spanDb: number | null;
  perDegreeC: number | null;
  /** Which of them matter now; all unless told. */
  only?: readonly ('reserve' | 'ambient' | 'range')[];
}>;

const all = ['reserve', 'ambient', 'range'] as const;

/** The rules of thumb with what they rest on, and beside them what physics says. */
export function SetUpRules({ topMhz, ambientC, spanDb, perDegreeC, only = all }: SetUpRulesProps) {
  const unit = useSelected(selectTemperatureUnit);
  if (topMhz === null) return null;
  const asked = adviseGainControl({
    topMhz,
    ...(ambientC === null ? {} : { ambientC }),
    ...(spanDb === null || ambientC === null ? {} : { spanDb }),
    ...(perDegreeC === null ? {} : { perDegreeC }),
  });
  if (!asked.ok) return <p className="quiet">{`${asked.where}: ${asked.help}`}</p>;
  const { reserveDb, reserveBasis, ambientOffsetDb, ambientBasis, spanOffsetDb } = asked.value;
  const apart =
    ambientOffsetDb === null || spanOffsetDb === null ? 0 : Math.abs(ambientOffsetDb - spanOffsetDb);
  const outside = topMhz < RANGE_LIMITS_HOLD.fromMhz || topMhz > RANGE_LIMITS_HOLD.toMhz;
  const limits = (part: keyof typeof RANGE_LIMITS) =>
    `${oneDecimal(RANGE_LIMITS[part].fromDb)} to ${sizeDb(RANGE_LIMITS[part].toDb)}`;
  return (
    <dl className="rules">
      {only.includes('reserve') && (
        <div className="rule">
          <dt>Reserve</dt>
          <dd>
            <strong>
              <HowText how={howReserveRule(topMhz, reserveDb, reserveBasis)} text={sizeDb(reserveDb)} />
            </strong>{' '}
            below the maximum, at {mhz(topMhz)}
            <small>{`${basisWords(reserveBasis)}`}</small>
          </dd>
        </div>
      )}
      {only.includes('ambient') && (
        <div className="rule">
          <dt>{ambientC === null ? 'Today' : `Today, ${temperature(ambientC, unit)}`}</dt>
          <dd>
            {ambientOffsetDb === null || ambientBasis === null ? (
              <>say the temperature of the air</>
            ) : (
              <>
                <strong>
                  <HowText
                    how={howAmbientRule(ambientC ?? 0, ambientOffsetDb, ambientBasis, unit)}
                    text={ambientOffsetDb === 0 ? 'none' : signedDb(ambientOffsetDb)}
                  />
                </strong>{' '}
                by the rule
                <small>{basisWords(ambientBasis)}</small>
              </>
            )}
          </dd>
          {spanOffsetDb !== null && spanDb !== null && (
            <dd>
              <strong>
                <HowText
                  how={howSpanOffset(
                    {
                      lossDb: spanDb,
                      perDegreeC: perDegreeC ?? PER_DEGREE_C,
                      isGiven: perDegreeC !== null,
                    },
                    ambientC ?? MIDDLE_C,
                    spanOffsetDb,
                    unit,
                  )}
                  text={signedDb(spanOffsetDb)}
                />
              </strong>{' '}
              by physics
              <small>
                {`a span of ${sizeDb(spanDb)}, ${aDegree(perDegreeC ?? PER_DEGREE_C, unit)}, against ${middleWords(unit)}`}
              </small>
            </dd>
          )}
          {apart > DISAGREE_DB && (
            <dd className="rule__apart" role="note">
              <Mark verdict="undecided" />
              <span>{`Rule and physics disagree by ${sizeDb(apart)}. Your operator’s procedure decides which to follow.`}</span>
            </dd>
          )}
        </div>
      )}
      {only.includes('range') && (
        <div className="rule">
          <dt>Range</dt>
          <dd>
            <HowText
              how={howRangeLimits(topMhz)}
              text={`up ${limits('up')}, down ${limits('down')}, in all ${limits('total')}`}
              figure={limits('total')}
            />
            <small>
              {outside
                ? `those of ${RANGE_LIMITS_HOLD.fromMhz} to ${RANGE_LIMITS_HOLD.toMhz} MHz; none are known for ${mhz(topMhz)}`
                : basisWords('practice')}
            </small>
          </dd>
        </div>
      )}
    </dl>
  );
}
