import { inspectSweep } from '../core/inspect/all.ts';
import { chanceFrom } from '../core/season/chance.ts';
import { SEASON_RUNS, seasonChance } from '../core/season/monte-carlo.ts';
import type { SeasonPlan } from '../core/season/plan.ts';
import { seasonRow } from '../core/season/rows.ts';
import { trendOf } from '../core/trend/direction.ts';
import { type BenchRow, mediansMs } from './timing.ts';

const plan: SeasonPlan = {
  portName: 'forward output',
  design: {
    lowMhz: 54,
    lowDbmv: 36,
    highMhz: 870,
    highDbmv: 46,
    shape: 'linear',
    toleranceDb: 1,
    flatnessDb: 2.5,
  },
  span: { lossDb: 44, topMhz: 870, perDegreeC: 0.00198, sky: 'aerial' },
  gainControl: { mode: 'auto', upDb: 1.5, downDb: 3, topMhz: 870, setAtC: 20 },
  thermalTracking: null,
};
const cable = { coldC: -30, hotC: 50 };

/** The same number of runs as one would write them first: draw, make a plan, look at its two ends. */
function plainLoop(seed: number): number {
  const chance = chanceFrom(seed);
  let holds = 0;
  for (let run = 0; run < SEASON_RUNS; run++) {
    const span = {
      ...plan.span,
      lossDb: plan.span.lossDb + chance.normal(),
      perDegreeC: plan.span.perDegreeC + 0.00018 * chance.normal(),
    };
    const movedDb = 0.5 * chance.normal();
    const gainControl = {
      ...plan.gainControl,
      upDb: plan.gainControl.upDb + movedDb,
      downDb: plan.gainControl.downDb - movedDb,
      setAtC: plan.gainControl.setAtC + 3 * chance.normal(),
    };
    const drawn = { ...plan, span, gainControl };
    const worstDb = Math.max(
      ...[cable.coldC, cable.hotC].map((ambientC) =>
        Math.abs(seasonRow(drawn, ambientC).highDbmv - plan.design.highDbmv),
      ),
    );
    if (worstDb <= plan.design.toleranceDb) holds++;
  }
  return holds / SEASON_RUNS;
}

const noise = chanceFrom(1);
/** A line with a ripple, over the same band however many rows there are. */
const rippled = (count: number) =>
  Array.from({ length: count }, (_, i) => {
    const channels = (136 * i) / count;
    const levelDbmv = 36 + channels / 13 + 0.5 * Math.cos(channels / 1.5) + 0.2 * noise.normal();
    return { frequencyMhz: 57 + 6 * channels, levelDbmv };
  });
const rows = rippled(136);
const traces = [rippled(2000), rippled(8000)] as const;
const readings = Array.from({ length: 721 }, (_, k) => ({
  atS: k / 20,
  levelDbmv: 30 + 0.3 * noise.normal(),
}));

/** 10,000 runs of a season, an inspection and one look at a trend, against the runs as a plain loop in the same process. */
export function seasonBench(): BenchRow[] {
  const kept = seasonChance(plan, cable, 1).holds;
  if (Math.abs(kept - plainLoop(1)) > 0.005)
    throw new Error(`the chance of holding differs: ${kept} and ${plainLoop(1)}`);
  let seed = 1;
  const [plain = 0, closed = 0, inspected = 0, trend = 0] = mediansMs(
    40,
    () => plainLoop(++seed),
    () => seasonChance(plan, cable, ++seed),
    () => inspectSweep(rows),
    () => trendOf(readings),
  );
  const [thousands = 0, manyThousands = 0] = mediansMs(
    5,
    ...traces.map((trace) => () => inspectSweep(trace)),
  );
  const against = `${SEASON_RUNS} runs as a plain loop`;
  return [
    { what: against, medianMs: plain },
    { what: `seasonChance, ${SEASON_RUNS} runs`, medianMs: closed },
    { what: 'inspectSweep, 136 channels with a ripple', medianMs: inspected },
    { what: 'inspectSweep, 2,000 rows of a trace with a ripple', medianMs: thousands },
    { what: 'inspectSweep, 8,000 rows', medianMs: manyThousands },
    { what: 'trendOf, 36 s of 20 readings a second', medianMs: trend },
  ].map((row) => ({ ...row, against, ratio: row.medianMs / plain }));
}
