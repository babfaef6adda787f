import { expect, it } from 'vitest';
import { createLineLink } from '../../../../electron/backend/meters/lines-over-bytes.ts';
import { scpi } from '../../../../electron/backend/meters/profiles/scpi.ts';
import { SimulatedInstrument } from '../../../../electron/backend/meters/simulated/instrument.ts';
import { wireToInstrument } from '../../../../electron/backend/meters/simulated/link.ts';

const never = new AbortController().signal;
const open = (readingMs = 0) =>
  createLineLink(
    'simulated meter',
    scpi.lines,
    wireToInstrument(new SimulatedInstrument({ source: () => 12.34 }), { messageMs: 0, readingMs }),
  );

it('takes and gives lines as bytes, like a meter on a port', async () => {
  const link = open();
  await link.tell('UNIT:POW DBMV', never);
  expect(await link.ask('READ:POW?', never)).toBe('12.34');
  await link.close();
});

it('takes its time for a reading, and no other question overtakes it', async () => {
  const link = open(60);
  const before = performance.now();
  const answers = await Promise.all([link.ask('UNIT:POW DBMV;:READ:POW?', never), link.ask('*OPC?', never)]);
  expect(answers).toEqual(['12.34', '1']);
  expect(performance.now() - before).toBeGreaterThan(55);
  await link.close();
});

it('says that its buffer ran over when a line is longer than it keeps', async () => {
  const link = open();
  await link.tell('X'.repeat(5000), never);
  expect(await link.ask('SYST:ERR?', never)).toBe('-363,"Input buffer overrun"');
  await link.close();
});

it('answers nothing after it was closed', async () => {
  const link = open(20);
  const asked = expect(link.ask('READ:POW?', never)).rejects.toMatchObject({ code: 'lost' });
  await new Promise((resolve) => setTimeout(resolve, 5));
  await link.close();
  await asked;
});
