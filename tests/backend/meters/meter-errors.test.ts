import { expect, it } from 'vitest';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import { createLineLink } from '../../../electron/backend/meters/lines-over-bytes.ts';
import { errorHelp } from '../../../electron/backend/meters/profile.ts';
import { scpi } from '../../../electron/backend/meters/profiles/scpi.ts';
import { SimulatedInstrument } from '../../../electron/backend/meters/simulated/instrument.ts';
import { type Script, scriptedWire } from '../../support/scripted-wire.ts';
import { waiting } from './meter-suite.ts';

const never = new AbortController().signal;
/** Waits a second for what never comes, so that the tests that need silence do not take long. */
const inASecond = waiting(scpi, 1000);

/** A connected instrument, and a way to put other answers in the place of its own. */
function instrumentOn(script?: (line: string, own: () => string | null) => string | null) {
  const instrument = new SimulatedInstrument({ source: (frequencyMhz) => frequencyMhz / 100 });
  const answer: Script = (line, { send }) => {
    const own = () => instrument.take(line).answer;
    const text = script === undefined ? own() : script(line, own);
    if (text !== null) send(`${text}\n`);
  };
  const wire = scriptedWire(answer);
  const shop = createMeterShop({
    now: () => new Date(0),
    profiles: [inASecond],
    openSerial: async (path, { lines }) => createLineLink(path, lines, wire.start),
  });
  const connect = () => shop.connect({ kind: 'serial', path: 'COM3', profile: 'scpi' }, never);
  return { instrument, wire, connect };
}

it('says what the meter says when it can not tune to a frequency, and keeps what was read before', async () => {
  const meter = await instrumentOn().connect();
  const levels: (number | null)[] = [];
  const reading = async () => {
    for await (const { meterDbmv } of meter.readLevels([711, 1794], never)) levels.push(meterDbmv);
  };
  await expect(reading()).rejects.toMatchObject({
    code: 'meter-error',
    where: 'COM3',
    help: expect.stringMatching(/^at 1794 MHz: the meter reports -222 "Data out of range"; .*another meter$/),
  });
  expect(levels).toEqual([7.11]);
  // A frequency that it can do is read rightly after that.
  expect((await meter.readLevels([423], never).next()).value?.meterDbmv).toBe(4.23);
});

it('reads on over an error that was left in the meter before', async () => {
  const { instrument, connect } = instrumentOn();
  const meter = await connect();
  instrument.take('NO:SUCH');
  instrument.take('NO:SUCH');
  expect((await meter.readLevels([711], never).next()).value?.meterDbmv).toBe(7.11);
});

it('says that a meter needs another profile when it does not know the command', async () => {
  const meter = await instrumentOn((line, own) => {
    if (!line.startsWith('SENS')) return own();
    return null;
  }).connect();
  // Silent, and nothing in its queue: silence is all there is to say.
  await expect(meter.readLevels([711], never).next()).rejects.toMatchObject({ code: 'silent' });

  const unable = instrumentOn();
  const other = await unable.connect();
  unable.wire.play((line, { send }) => {
    const { answer } = unable.instrument.take(line.replace('READ:POW?', 'GLOW:POW?'));
    if (answer !== null) send(`${answer}\n`);
  });
  await expect(other.readLevels([711], never).next()).rejects.toMatchObject({
    code: 'meter-error',
    help: expect.stringMatching(/-113 "Undefined header"; .*another profile/),
  });
});

it('refuses a unit that it can not convert, by name', async () => {
  const inWatt = instrumentOn((line, own) => (line === 'UNIT:POW?' ? 'W' : own()));
  await expect(inWatt.connect()).rejects.toMatchObject({
    code: 'not-understood',
    help: expect.stringContaining('"W"'),
  });
  expect(inWatt.wire.closedTimes()).toBe(1);
});

it('does not take the level of another frequency', async () => {
  const { connect } = instrumentOn((line, own) => {
    const text = own();
    return line.startsWith('SENS') ? `717000000;DBMV;1.00;0,"No error"` : text;
  });
  const meter = await connect();
  await expect(meter.readLevels([711], never).next()).rejects.toMatchObject({ code: 'not-understood' });
});

it.each(['7;0', 'seven', '7', '7.', '+7.0', '.7E1', '7.00E+0'])(
  'takes %s as IEEE 488.2 has numbers',
  async (level) => {
    const { connect } = instrumentOn((line, own) =>
      line.startsWith('SENS') ? `7.11E+08;DBMV;${level};0,"No error"` : own(),
    );
    const meter = await connect();
    const read = meter.readLevels([711], never).next();
    if (/[;s]/.test(level)) await expect(read).rejects.toMatchObject({ code: 'not-understood' });
    else expect((await read).value?.meterDbmv).toBe(7);
  },
);

it.each(['9.91E37', '9.9E+37', '-9.9E37'])('takes %s for no level', async (level) => {
  const { connect } = instrumentOn((line, own) =>
    line.startsWith('SENS') ? `711E6;DBMV;${level};0,""` : own(),
  );
  const meter = await connect();
  expect((await meter.readLevels([711], never).next()).value?.meterDbmv).toBeNull();
});

it('gives up on an error queue that never ends', async () => {
  let asked = 0;
  const { connect } = instrumentOn((line, own) => {
    if (line !== 'SYST:ERR?') return own();
    asked += 1;
    return '-310,"System error"';
  });
  await expect(connect()).rejects.toMatchObject({
    code: 'meter-error',
    help: expect.stringMatching(/no end/),
  });
  // As deep as the profile says that a queue is, and no deeper.
  expect(asked).toBe(inASecond.errorQueue?.depth);
});

it('connects though the first words are lost in a waking meter', async () => {
  let asked = 0;
  const { connect } = instrumentOn((line, own) => {
    if (line !== '*IDN?') return own();
    asked += 1;
    return asked === 1 ? null : own();
  });
  expect((await connect()).identity.serialNumber).toBe('QIW-0042');
});

it('walks one plan at a time: two at once are a mistake of the program', async () => {
  const meter = await instrumentOn().connect();
  const first = meter.readLevels([57, 711], never);
  await first.next();
  await expect(meter.readLevels([57], never).next()).rejects.toThrow(/two plans/);
  await first.return(undefined);
  expect((await meter.readLevels([711], never).next()).value?.meterDbmv).toBe(7.11);
});

it('refuses a profile that nobody has, as an input', async () => {
  const shop = createMeterShop({ now: () => new Date(0) });
  const connecting = shop.connect({ kind: 'serial', path: 'COM3', profile: 'x' }, never);
  await expect(connecting).rejects.toMatchObject({ name: 'Refused', refusal: { code: 'no-such-profile' } });
});

it('lists its profiles', () => {
  const [first, ...others] = createMeterShop({ now: () => new Date(0) }).profiles();
  expect(first).toEqual({ name: 'scpi', title: expect.stringContaining('SCPI') });
  expect(others.map(({ name }) => name)).toContain('line');
});

// Classes of SCPI-1999, volume 2, SYSTem:ERRor.
it.each([
  [-110, /another profile/],
  [-210, /look at its display/],
  [-311, /off and on/],
  [-420, /out of step/],
  [17, /manual/],
  [-330, /do not trust/],
])('has a meaning for error %d', (errorCode, meaning) => expect(errorHelp(scpi, errorCode)).toMatch(meaning));

it('counts in the unit of the answer: a meter that started anew is back in its own', async () => {
  const { instrument, connect } = instrumentOn();
  const meter = await connect();
  const levels: (number | null)[] = [];
  for await (const { meterDbmv } of meter.readLevels([711, 711], never)) {
    levels.push(meterDbmv);
    instrument.take('*RST');
  }
  expect(levels[0]).toBe(7.11);
  // 7.11 dBmV are -41.64 dBm in 75 ohm; the meter writes two digits.
  expect(levels[1]).toBeCloseTo(7.11, 1);
});
