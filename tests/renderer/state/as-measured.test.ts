import { describe, expect, it } from 'vitest';
import type { SetUpRecord } from '../../../core/bridge/set-up-calls.ts';
import { setUpPlan } from '../../../core/set-up/plan.ts';
import type { StepEvent } from '../../../core/set-up/state.ts';
import { asMeasured, stationAsMeasured } from '../../../renderer/state/as-measured.ts';
import { viewSeason } from '../../../renderer/state/season-view.ts';
import { reachWords } from '../../../renderer/state/season-words.ts';
import { all, asked, lighthouse, redo, skipped } from '../../core/set-up/lighthouse.ts';

const recordOf = (
  events: readonly StepEvent[],
  day: string,
  abandoned: string | null = null,
): SetUpRecord => {
  const plan = setUpPlan(lighthouse, { ...asked('new-module'), topCarrierMhz: 870 });
  if (!plan.ok) throw new Error(plan.help);
  return {
    setUpId: '00000000-0000-4000-8000-0000000000bb',
    visitId: '00000000-0000-4000-8000-0000000000cc',
    stationId: lighthouse.id,
    revision: 1,
    startedAt: `${day}T08:00:00.000Z`,
    plan: plan.value,
    events: events.map((event, seq) => ({ ...event, seq, at: `${day}T09:00:00.000Z`, liveId: null })),
    abandoned,
  };
};
const whole = all('new-module');
const untested = whole.map((event) => (event.step === 'range-test' ? skipped('range-test') : event));

describe('the year with what a set-up measured', () => {
  it('takes the newest one that is finished, not one that is going on, given up or begun again', () => {
    const older = recordOf(whole, '2026-03-01');
    const found = asMeasured(lighthouse, [
      recordOf(whole.slice(0, -1), '2026-11-04'),
      recordOf(whole, '2026-11-03', 'rain'),
      recordOf([...whole, redo('max-gain')], '2026-11-02'),
      older,
    ]);
    // 50 dBmV at most, set at 44; the test found 4 and 6.5 dB: 6 up, and 10.5 less 6 down.
    expect(found).toMatchObject({
      gainControl: { upDb: 6, downDb: 4.5, setAtC: -18 },
      endedAt: '2026-03-01T09:00:00.000Z',
      downIsMeasured: true,
    });
    expect(asMeasured(lighthouse, [])).toBeNull();
  });

  it('changes what the season says, and the station file’s figures come back when asked for', () => {
    const measured = asMeasured(lighthouse, [recordOf(whole, '2026-11-02')]);
    const weather = {
      climate: { days: [], coldestC: -28, hottestC: 41, withoutReading: [] },
      fileName: null,
      isAssumed: false,
    };
    const year = (source: 'set-up' | 'file') => {
      const view = viewSeason(stationAsMeasured(lighthouse, measured, source), weather, 15, null);
      if ('missing' in view || measured === null) throw new Error('no year');
      const words = reachWords(view, measured, source, '2026-11-20T09:00:00.000Z').replace(
        /[\u00A0\u202F]/g,
        ' ',
      );
      return { holds: view.help.holds, words };
    };
    expect(year('set-up')).toEqual({
      holds: true,
      words: '6.0 dB up and 4.5 dB down, as measured at the set-up of 2 November.',
    });
    expect(year('file').holds).toBe(false);
    expect(year('file').words).toMatch(/0\.5 dB down by the station file, not as the set-up of 2 November/);
  });

  it('says whose figure the way down is where no range test was made', () => {
    const measured = asMeasured(lighthouse, [recordOf(untested, '2026-11-02')]);
    expect(measured).toMatchObject({ gainControl: { upDb: 6, downDb: 0.5 }, downIsMeasured: false });
  });
});
