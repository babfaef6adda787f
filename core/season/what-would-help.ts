import type { Station } from '../files/station.ts';
import { followedPart } from './control.ts';
import { demandPerDegreeDb, toleranceAtControlTopDb, toleranceDemand } from './limits.ts';
import type { ControlMode, SeasonPlan } from './plan.ts';
import type { ColdAndHot } from './sun.ts';

/** One thing that makes the station hold. Every figure is the smallest that does. */
export type SeasonRemedy =
  /** Set the control so much further below its maximum (less far where negative); anything from..to does. */
  | Readonly<{ kind: 'reserve'; moveDb: number; fromDb: number; toDb: number }>
  /** A pad of the kit in front of the control that moves it so far while the output stays at its level. */
  | Readonly<{ kind: 'pad'; position: string; from: number; to: number; moveDb: number }>
  /** A control that reaches so much further. */
  | Readonly<{ kind: 'range'; moreUpDb: number; moreDownDb: number }>
  /** A thermal control that follows this part of the cable. */
  | Readonly<{ kind: 'tracking'; thermalTracking: number }>
  /** The same control in another mode. */
  | Readonly<{ kind: 'mode'; mode: ControlMode }>;

export type SeasonHelp = Readonly<{
  holds: boolean;
  /** How far the demand goes at both ends of the year, at the control's top frequency, dB, not negative. */
  hotDemandDb: number;
  coldDemandDb: number;
  remedies: readonly SeasonRemedy[];
}>;

type Year = Readonly<{ hotDb: number; coldDb: number; toleranceDb: number }>;
type Range = Readonly<{ upDb: number; downDb: number }>;

function holdsWith(followed: number, range: Range, year: Year): boolean {
  const ends = toleranceDemand(followed, range, year.toleranceDb);
  return year.hotDb <= ends.upDb && year.coldDb <= ends.downDb;
}

/** While it moves freely, does a control that follows this part stay within the tolerance at both ends? */
const followsEnough = (followed: number, { hotDb, coldDb, toleranceDb }: Year): boolean =>
  Math.abs(1 - followed) * Math.max(hotDb, coldDb) <= toleranceDb;

function reserveMoves({ upDb, downDb }: Range, { hotDb, coldDb, toleranceDb }: Year) {
  const fromDb = Math.max(hotDb - toleranceDb - upDb, -upDb);
  const toDb = Math.min(downDb + toleranceDb - coldDb, downDb);
  return { fromDb, toDb };
}

function rangeRemedies(station: Station, plan: SeasonPlan, year: Year): SeasonRemedy[] {
  const { upDb, downDb } = plan.gainControl;
  const { fromDb, toDb } = reserveMoves(plan.gainControl, year);
  const remedies: SeasonRemedy[] = [];
  if (fromDb <= toDb) {
    remedies.push({ kind: 'reserve', moveDb: Math.min(Math.max(0, fromDb), toDb), fromDb, toDb });
    const front = station.stageInput?.through ?? portThrough(station, plan.portName);
    for (const position of station.positions) {
      if (position.kind !== 'pad' || position.curves !== undefined || !front.includes(position.name))
        continue;
      const fits = position.values
        .map((value) => ({ value, moveDb: position.installed - value }))
        .filter(({ moveDb }) => moveDb !== 0 && moveDb >= fromDb && moveDb <= toDb)
        .sort((a, b) => Math.abs(a.moveDb) - Math.abs(b.moveDb))[0];
      if (fits !== undefined)
        remedies.push({
          kind: 'pad',
          position: position.name,
          from: position.installed,
          to: fits.value,
          moveDb: fits.moveDb,
        });
    }
  }
  const moreUpDb = Math.max(0, year.hotDb - year.toleranceDb - upDb);
  const moreDownDb = Math.max(0, year.coldDb - year.toleranceDb - downDb);
  remedies.push({ kind: 'range', moreUpDb, moreDownDb });
  return remedies;
}

const portThrough = (station: Station, portName: string): readonly string[] =>
  station.ports.find((port) => port.name === portName)?.through ?? [];

/**
 * What would make a station hold its output within the design's tolerance all year, computed from its own figures.
 * A smaller pad in front of the control leaves it more reserve and less way down by as much, because the control then
 * stands lower for the same output. The stage's input limit is not looked at: that needs an input sweep.
 * @param station  whose plan it is: for the pads of its kit, dB
 * @param cable    coldest and hottest cable of the year, degrees C
 * @returns  whether it holds, the year's demands in dB, and every remedy that alone is enough, with the smallest figure
 * @source   contract, section 3, "season, exactly", solved for each figure; that a pad and the reserve trade dB for dB:
 *           common practice, no published source
 */
export function whatWouldHelp(station: Station, plan: SeasonPlan, cable: ColdAndHot): SeasonHelp {
  const perDegreeDb = demandPerDegreeDb(plan);
  const { setAtC, mode } = plan.gainControl;
  const year: Year = {
    hotDb: Math.max(0, perDegreeDb * (cable.hotC - setAtC)),
    coldDb: Math.max(0, perDegreeDb * (setAtC - cable.coldC)),
    toleranceDb: toleranceAtControlTopDb(plan),
  };
  const followed = followedPart(plan);
  const demand = { hotDemandDb: year.hotDb, coldDemandDb: year.coldDb };
  if (holdsWith(followed, plan.gainControl, year)) return { holds: true, ...demand, remedies: [] };
  const remedies: SeasonRemedy[] = [];
  if (mode !== 'manual' && followsEnough(followed, year))
    remedies.push(...rangeRemedies(station, plan, year));
  if (mode === 'thermal' && !followsEnough(followed, year)) {
    const most = Math.max(year.hotDb, year.coldDb);
    const thermalTracking = followed < 1 ? 1 - year.toleranceDb / most : 1 + year.toleranceDb / most;
    if (holdsWith(thermalTracking, plan.gainControl, year))
      remedies.push({ kind: 'tracking', thermalTracking });
  }
  if (mode !== 'auto' && holdsWith(1, plan.gainControl, year)) remedies.push({ kind: 'mode', mode: 'auto' });
  return { holds: false, ...demand, remedies };
}
