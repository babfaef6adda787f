import { describe, expect, it } from 'vitest';
import { ArchiveFault } from '../../../electron/backend/archive/archive-fault.ts';
import { inPortions } from '../../../electron/backend/services/portions.ts';

/** Long enough for the next rest to be a real one. */
const busy = () => {
  for (const since = performance.now(); performance.now() - since < 12; );
};

function bench(write: (work: () => unknown) => unknown = (work) => work()) {
  const kept: number[] = [];
  const theirs: string[] = [];
  const keptToo: string[] = [];
  let recorded = 1;
  const archive = { stations: { recorded: () => recorded }, write } as unknown as Parameters<
    typeof inPortions
  >[0];
  const too = { waiting: () => theirs.length, put: () => void keptToo.push(...theirs.splice(0)) };
  return {
    kept,
    theirs,
    keptToo,
    record: () => {
      recorded += 1;
    },
    begin: (signal?: AbortSignal) =>
      inPortions<number>(archive, { keepOne: (one) => kept.push(one), too, signal }),
  };
}

describe('what was worked out', () => {
  it('is kept at the end', async () => {
    const { kept, begin } = bench();
    const portions = begin();
    portions.worked(1);
    busy();
    await portions.rest();
    portions.worked(2);
    portions.keep();
    expect(kept).toEqual([1, 2]);
  });
  it('is let go where something was recorded while it waited', async () => {
    const { kept, begin, record } = bench();
    const portions = begin();
    portions.worked(1);
    busy();
    const resting = portions.rest();
    record();
    await resting;
    portions.worked(2);
    portions.keep();
    expect(kept).toEqual([2]);
  });
  it('is written before the rest once it is a slice', async () => {
    const { kept, begin, record } = bench();
    const portions = begin();
    for (let i = 0; i < 500; i += 1) portions.worked(i);
    busy();
    const resting = portions.rest();
    record();
    await resting;
    expect(kept).toHaveLength(500);
  });
  it('is kept together with what somebody else keeps of the same work, which no record makes old', async () => {
    let writes = 0;
    const { kept, theirs, keptToo, begin, record } = bench((work) => {
      writes += 1;
      return work();
    });
    const portions = begin();
    portions.worked(1);
    theirs.push('a');
    busy();
    const resting = portions.rest();
    record();
    await resting;
    portions.keep();
    expect({ kept, keptToo, writes }).toEqual({ kept: [], keptToo: ['a'], writes: 1 });
    portions.keep();
    expect(writes).toBe(1);
  });
  it('is no loss where the disk takes nothing, and any other fault is one', () => {
    const full = bench(() => {
      throw new ArchiveFault('full', 'the archive', 'make room');
    }).begin();
    full.worked(1);
    expect(() => full.keep()).not.toThrow();
    const wrong = bench(() => {
      throw new TypeError('wrong');
    }).begin();
    wrong.worked(1);
    expect(() => wrong.keep()).toThrow(TypeError);
  });
});

it('rests only after some work, and ends there when asked to', async () => {
  const controller = new AbortController();
  controller.abort(new Error('gone on'));
  const portions = bench().begin(controller.signal);
  await portions.rest();
  busy();
  await expect(portions.rest()).rejects.toThrow('gone on');
});
