import type { Station } from '../files/station.ts';
import type { SetUpPlan } from './plan.ts';
import { foundOut, type SetUpState } from './state.ts';

type GainControl = NonNullable<Station['gainControl']>;

/**
 * The gain control as a set-up left it, for the season view: how far it still reaches, from what was measured today.
 * @param station  for what was not measured: the way down without a range test, the thermal tracking
 * @param plan     its top frequency, pilot and temperature
 * @param state    how the set-up stands
 * @returns  up: the maximum less the level that was set; down: the rest of the range that the test found; both in dB at the
 *           top frequency. Set at the temperature of the compensation. Null while maximum, set level or temperature are
 *           not known, or where neither the test nor the station says how far down it reaches.
 * @source   contract, section 2, `gainControl`, and section 3, "season, exactly": a control of c dB at the top moves a
 *           carrier at f by c sqrt(f/top)
 */
export function gainControlAsSet(
  station: Pick<Station, 'gainControl'>,
  plan: SetUpPlan,
  state: SetUpState,
): GainControl | null {
  const maxDbmv = foundOut(state, 'max-gain', 'maxDbmv');
  const setDbmv = foundOut(state, 'ambient', 'setDbmv') ?? foundOut(state, 'back-off', 'setDbmv');
  const setAtC = foundOut(state, 'ambient', 'ambientC') ?? plan.ambientC;
  if (maxDbmv === null || setDbmv === null || setAtC === null) return null;
  const toTop = Math.sqrt(plan.topMhz / plan.topCarrierMhz);
  const rangeUpDb = foundOut(state, 'range-test', 'upDb');
  const rangeDownDb = foundOut(state, 'range-test', 'downDb');
  const upDb = Math.max(0, maxDbmv - setDbmv) * toTop;
  const tested = rangeUpDb === null || rangeDownDb === null ? null : (rangeUpDb + rangeDownDb) * toTop;
  const downDb = tested === null ? station.gainControl?.downDb : Math.max(0, tested - upDb);
  if (downDb === undefined) return null;
  const { thermalTracking } = station.gainControl ?? {};
  return {
    mode: 'auto',
    upDb,
    downDb,
    topMhz: plan.topMhz,
    setAtC,
    ...(plan.pilotMhz === null ? {} : { pilotMhz: plan.pilotMhz }),
    ...(thermalTracking === undefined ? {} : { thermalTracking }),
  };
}
