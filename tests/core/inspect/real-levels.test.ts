import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import { root } from '../../support/source-files.ts';
import { findingsIn } from './simulated-sweep.ts';

const folder = join(root, '../shared/real-levels');

// Levels that cable modems reported; the tables stay where they are. What each shows was seen by eye on its plot.
describe.skipIf(!existsSync(folder))('real tables (skipped where ../shared/real-levels is absent)', () => {
  const inTable = (name: string) => {
    const sweep = readSweepCsv(readFileSync(join(folder, `${name}.csv`), 'utf8'), name);
    if (!sweep.ok) throw new Error(sweep.help);
    return findingsIn(sweep.value.rows);
  };

  it('dip: 682 MHz lies 2 dB below 650 and 714', () => {
    const notch = inTable('001').find((one) => one.kind === 'notch');
    expect(notch?.kind === 'notch' && Math.abs(notch.centerMhz - 676) < 8).toBe(true);
  });

  it('dip deeply: 675 MHz lies 6 dB below 609 and 723', () => {
    const notch = inTable('009').find((one) => one.kind === 'notch');
    expect(notch?.kind === 'notch' && Math.abs(notch.centerMhz - 670) < 8 && notch.depthDb > 4.5).toBe(true);
  });

  it('fall off at the top: the last row 18 dB below the others', () => {
    const found = inTable('039');
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ kind: 'rolloff', edge: 'high' });
  });

  it('ripple: peaks at 387, 426 and 463 MHz', () => {
    const ripple = inTable('048').find((one) => one.kind === 'ripple');
    expect(ripple?.kind === 'ripple' && Math.abs(ripple.periodMhz - 38) < 2).toBe(true);
  });

  it('step: two QAM orders 3 dB apart', () => {
    const step = inTable('057').find((one) => one.kind === 'step');
    expect(step?.kind === 'step' && step.stepDb < -2.5).toBe(true);
  });

  it('lack one channel of the raster', () => {
    expect(inTable('002')).toEqual([{ kind: 'missing', frequencyMhz: 610 }]);
  });

  it.each(['004', '017', '020', '021', '043', '049'])('%s show nothing', (name) => {
    expect(inTable(name)).toEqual([]);
  });
});
