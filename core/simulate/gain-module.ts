/** How far a module's control reaches from the level of the design, dB at its top frequency. */
export type ModuleReach = Readonly<{ upDb: number; downDb: number }>;

/** What a hand does at a simulated station. Up is positive, as the output moves. */
export type ModuleHand =
  | Readonly<{ act: 'turn'; turnDb: number }>
  | Readonly<{ act: 'mode'; mode: 'manual' | 'auto' }>
  | Readonly<{ act: 'exchange'; upDb: number; downDb: number }>
  | Readonly<{ act: 'pilot'; present: boolean }>
  | Readonly<{ act: 'weather'; ambientC: number }>;

/** A hand with its moment and the temperature that the station had then. */
export type TimedHand = Readonly<{ hand: ModuleHand; atMs: number; ambientC: number }>;

/** By how much more the cable loses at a temperature than on the day of the design, dB at the control's top frequency. */
export type Demand = (ambientC: number) => number;

/** A gain-control module that a hand can operate. Positions are dB from the level of the design. */
export type GainModule = Readonly<{
  mode: 'manual' | 'auto';
  reach: ModuleReach;
  /** Where the hand's control stands. */
  handDb: number;
  /** What the automatic loop adds to that. */
  loopDb: number;
  /** What the loop holds the output at, beside following the cable. */
  holdDb: number;
  pilotPresent: boolean;
  atMs: number;
}>;

/** How quickly the loop moves: in each such time it takes away all but a third of what is left. Invented. */
export const LOOP_S = 4;
/** A loop that is switched on begins this far off and then comes up. Invented. */
export const WAKE_DB = -0.8;

const held = (db: number, { upDb, downDb }: ModuleReach): number => Math.min(upDb, Math.max(-downDb, db));

/** Where the loop wants the whole control to stand. Without its pilot it hears nothing, and turns all the way up. */
const wantedDb = (module: GainModule, demandDb: number): number =>
  module.pilotPresent ? held(demandDb + module.holdDb, module.reach) : module.reach.upDb;

/**
 * A module in automatic that has long settled: where a station of the simulated network stands before any hand.
 * @param demandDb  what the cable asks for today, dB at the control's top frequency
 * @param atMs      milliseconds on any clock
 * @returns  the module, its control at the demand as far as it reaches
 * @source   contract, section 2, `gainControl`
 */
export const settledModule = (reach: ModuleReach, demandDb: number, atMs: number): GainModule => ({
  mode: 'auto',
  reach,
  handDb: 0,
  loopDb: held(demandDb, reach),
  holdDb: 0,
  pilotPresent: true,
  atMs,
});

/**
 * Lets time pass.
 * @param demandDb  what the cable asks for in that time, dB
 * @param atMs      the moment to come to; one before the module's own changes nothing
 * @returns  the module then: in manual as it was, in automatic with its loop so much further
 * @source   a loop of first order: common practice, no published source
 */
export function moduleLater(module: GainModule, demandDb: number, atMs: number): GainModule {
  const passedS = (atMs - module.atMs) / 1000;
  if (!(passedS > 0)) return module;
  if (module.mode === 'manual') return { ...module, atMs };
  const aimDb = wantedDb(module, demandDb) - module.handDb;
  const loopDb = aimDb + (module.loopDb - aimDb) * Math.exp(-passedS / LOOP_S);
  return { ...module, loopDb, atMs };
}

/**
 * Where the control stands.
 * @returns  dB from the level of the design, at the control's top frequency, within the module's reach
 * @source   contract, section 2, `gainControl`
 */
export const modulePositionDb = (module: GainModule): number =>
  held(module.handDb + (module.mode === 'auto' ? module.loopDb : 0), module.reach);

/**
 * What a hand makes of a module at one moment.
 * @param demandDb  what the cable asks for at that moment, dB
 * @returns  the module after it; the weather changes nothing by itself
 * @source   common practice, no published source; an automatic loop goes on holding the level that it finds when it is
 *           switched on
 */
export function moduleAfter(module: GainModule, hand: ModuleHand, demandDb: number): GainModule {
  switch (hand.act) {
    case 'turn':
      return { ...module, handDb: held(module.handDb + hand.turnDb, module.reach) };
    case 'mode':
      if (hand.mode === module.mode) return module;
      return hand.mode === 'manual'
        ? { ...module, mode: 'manual', loopDb: 0 }
        : { ...module, mode: 'auto', loopDb: WAKE_DB, holdDb: module.handDb - demandDb };
    case 'exchange':
      return {
        ...module,
        mode: 'manual',
        reach: { upDb: hand.upDb, downDb: hand.downDb },
        handDb: -hand.downDb,
        loopDb: 0,
        holdDb: 0,
      };
    case 'pilot':
      return { ...module, pilotPresent: hand.present };
    case 'weather':
      return module;
  }
}

/**
 * A module after all that was done to it, from the settled one on.
 * @param hands   in the order in which they were done
 * @param demand  of the station's cable over temperature
 * @returns  the module at the last hand's moment; null before the first, when it stands as the network tells it
 * @source   common practice, no published source
 */
export function moduleAfterHands(
  reach: ModuleReach,
  hands: readonly TimedHand[],
  demand: Demand,
): GainModule | null {
  const [first] = hands;
  if (first === undefined) return null;
  let module = settledModule(reach, demand(first.ambientC), first.atMs);
  let ambientC = first.ambientC;
  for (const { hand, atMs, ambientC: nowC } of hands) {
    module = moduleAfter(moduleLater(module, demand(ambientC), atMs), hand, demand(nowC));
    ambientC = hand.act === 'weather' ? hand.ambientC : nowC;
  }
  return module;
}
