import { describe, expect, it } from 'vitest';
import type { Input } from '../../../core/bridge/contract.ts';
import { joined, refusalOf } from './joined.ts';

const nobody = '00000000-0000-4000-8000-000000000999';

describe('a sweep is not begun', () => {
  it('without a visit, after its end, at no port, or without a meter', async () => {
    const bench = await joined();
    const call = bench.handlers['sweeps.start'];
    const asked: Input<'sweeps.start'> = {
      visitId: bench.visit.visitId,
      portName: 'forward output',
      purpose: 'check',
      frequenciesMhz: [54],
    };
    expect(await refusalOf(() => call({ ...asked, visitId: nobody }, bench.signal))).toMatchObject({
      code: 'no-such-visit',
    });
    expect(await refusalOf(() => call({ ...asked, portName: 'rear' }, bench.signal))).toEqual({
      ok: false,
      code: 'no-such-port',
      where: 'port "rear"',
      help: 'Slipway 2 has "forward output", "forward input"',
    });
    await bench.handlers['meters.disconnect']({}, bench.signal);
    expect(await refusalOf(() => call(asked, bench.signal))).toMatchObject({ code: 'no-meter' });
    await bench.handlers['visits.end']({ visitId: bench.visit.visitId, note: '' }, bench.signal);
    expect(await refusalOf(() => call(asked, bench.signal))).toMatchObject({ code: 'visit-ended' });
    expect((await bench.sheet()).sweeps).toEqual([]);
  });
});

describe('a file', () => {
  const importing = async (bench: Awaited<ReturnType<typeof joined>>, text: string, testPointLossDb = 20) =>
    bench.handlers['sweeps.import'](
      {
        visitId: bench.visit.visitId,
        portName: 'forward output',
        purpose: 'as-found',
        fileName: 'found.csv',
        text,
        testPointLossDb,
      },
      bench.signal,
    );

  it('is kept as it stands, in its order, with what was left out named by line', async () => {
    const bench = await joined();
    const text =
      'frequency_mhz,level_dbmv,kind,locked\n870,26,qam,\n54,16.1234,analog,\n,3,,\n603,,qam,\n609,12,qam,no\n';
    const { sweepId, left } = await importing(bench, text);
    expect(left.map(({ line }) => line)).toEqual([4, 5, 6]);
    expect(left.at(-1)?.reason).toBe('not locked');
    const { summary, readings } = await bench.open(sweepId);
    expect(summary).toMatchObject({
      source: 'file',
      sourceName: 'found.csv',
      meter: null,
      state: 'complete',
      testPointLossDb: 20,
      readingCount: 4,
    });
    expect(readings.map(({ frequencyMhz, meterDbmv, kind }) => [frequencyMhz, meterDbmv, kind])).toEqual([
      [870, 26, 'qam'],
      [54, 16.123, 'analog'],
      [603, null, 'qam'],
      [609, null, 'qam'],
    ]);
  });

  it.each([
    ['a word where a level is due', 'frequency_mhz,level_dbmv\n54,36\n60,strong\n', /line 3/],
    ['no header', '54,36\n60,37\n', /found.csv/],
    ['no frequency at all', 'frequency_mhz,level_dbmv\n,36\n', /found.csv/],
    ['a level that no cable carries', 'frequency_mhz,level_dbmv\n54,36\n60,36000\n', /line 3/],
  ])('with %s is refused whole', async (_what, text, where) => {
    const bench = await joined();
    expect((await refusalOf(() => importing(bench, text))).where).toMatch(where);
    expect((await bench.sheet()).sweeps).toEqual([]);
  });

  it('leaves nothing when the archive can not keep its last row', async () => {
    const failing = await joined({
      archive: (archive) => ({
        ...archive,
        sweeps: {
          ...archive.sweeps,
          addReading: (seq, place, row) => {
            if (place === 2) throw new Error('the third row fails');
            archive.sweeps.addReading(seq, place, row);
          },
        },
      }),
    });
    await expect(importing(failing, 'frequency_mhz,level_dbmv\n54,36\n60,37\n66,38\n')).rejects.toThrow(
      'the third row fails',
    );
    expect((await failing.sheet()).sweeps).toEqual([]);
  });

  it('goes out and comes in again with the same levels at the port', async () => {
    const bench = await joined({ script: { levelDbmv: (mhz) => (mhz === 60 ? null : 10 + mhz / 1000) } });
    const sweepId = await bench.start(5);
    await bench.endOf(sweepId);
    const { text, fileName } = await bench.handlers['sweeps.export']({ sweepId }, bench.signal);
    expect(fileName).toMatch(/^Slipway-2-forward-output-as-found-[\d-]+Z\.csv$/);
    const again = await importing(bench, text, 0);
    const [a, b] = [await bench.open(sweepId), await bench.open(again.sweepId)];
    const levels = (sweep: typeof a) =>
      sweep.readings.map(({ meterDbmv }) =>
        meterDbmv === null ? null : Number((meterDbmv + sweep.summary.testPointLossDb).toFixed(6)),
      );
    expect(levels(b)).toEqual(levels(a));
  });
});

it('gives a partial sweep out with the word that it is one', async () => {
  const bench = await joined({ script: { stepped: true } });
  const sweepId = await bench.start();
  bench.meter().release(1);
  await bench.until(() => bench.readCount() === 1);
  await bench.handlers['sweeps.stop']({ sweepId }, bench.signal);
  const { text } = await bench.handlers['sweeps.export']({ sweepId }, bench.signal);
  expect(text).toContain('partial: stopped by hand');
});

it('says what the rows of a file are modulated with, and judges two QAM orders each against its own line', async () => {
  const bench = await joined();
  const row = (i: number) => {
    const frequencyMhz = 57 + 6 * i;
    const order = i < 60 ? 64 : 256;
    const levelDbmv = 36 + (10 * (frequencyMhz - 54)) / 816 - (order === 64 ? 4 : 0);
    return `${frequencyMhz},${levelDbmv.toFixed(2)},qam,${order}-QAM`;
  };
  const text = `frequency_mhz,level_dbmv,kind,modulation\n${Array.from({ length: 136 }, (_, i) => row(i)).join('\n')}\n`;
  const { sweepId } = await bench.handlers['sweeps.import'](
    {
      visitId: bench.visit.visitId,
      portName: 'forward output',
      purpose: 'check',
      fileName: 'a.csv',
      text,
      testPointLossDb: 0,
    },
    bench.signal,
  );
  const { readings } = await bench.open(sweepId);
  expect([readings[0]?.modulation, readings[135]?.modulation]).toEqual(['64-QAM', '256-QAM']);
  const { stations } = await bench.handlers['stations.list']({}, bench.signal);
  // 4 dB apart, as two QAM orders usually are (docsis.org forum, secondary): no step is left, and nothing is low.
  expect(Math.abs(stations[0]?.standing?.worstDb ?? Number.NaN)).toBeLessThan(0.1);
});
