import type { Profile } from '../profile.ts';
import { scpiErrorHelp } from './scpi-errors.ts';

/** Any number that IEEE 488.2 lets an instrument answer (NR1, NR2, NR3), and no other text. */
const number = String.raw`[+-]?(?:\d+\.?\d*|\.\d+)(?:[Ee][+-]?\d+)?`;
/** An entry of the error queue: NR1, comma, a string in double quotes (a quote inside is doubled). */
const error = String.raw`(?<errorCode>[+-]?\d+) ?, ?"(?<errorText>(?:[^"]|"")*)"`;
/** One field of the identity: no comma separates inside it, and a semicolon would be another answer. */
const field = (name: string) => `(?<${name}>[^,;]*)`;

/**
 * A level meter that speaks SCPI-1999 over IEEE 488.2, of 75 ohm. Only commands of the standards are used:
 *
 * - `READ:POWer?` is `READ[:SCALar]:POWer[:AC]?` of the measurement subsystem: abort, start, wait and fetch, so that
 *   the level belongs to the frequency just set. `FETCh?` could give the one before; `MEASure?` configures first and
 *   may put frequency and unit back.
 * - Frequency, level and error queue are asked in one message. IEEE 488.2 joins their answers with semicolons in one
 *   line, so that each level carries the frequency it was read at and the meter's own word that nothing went wrong;
 *   an answer that comes late, or one left from before, can't be taken for another carrier's.
 * - `CENTer?` behind a semicolon continues the path `SENSe:FREQuency`; `:READ` and `:SYSTem` start from the root.
 * - 9.9E37 and 9.91E37 are SCPI's infinity and "not a number": no level there.
 *
 * Baud rate 9600, 8, no parity, 1 stop bit, no flow control: common practice for a serial port, no published source.
 */
export const scpi: Profile = {
  name: 'scpi',
  title: 'SCPI level meter, 75 ohm (SCPI-1999, IEEE 488.2)',
  serial: {
    baudRate: 9600,
    dataBits: 8,
    parity: 'none',
    stopBits: 1,
    flowControl: 'none',
    hangUpOnClose: true,
  },
  // An SCPI instrument speaks only when it is asked, so its first line is a whole answer.
  lines: { terminator: '\n', discardFirstLine: false, lateAnswerMs: 1500 },
  settleMs: 50,
  // The bare line end finishes a command that an earlier session may have left half said.
  wake: ['', '*CLS'],
  identify: {
    ask: '*IDN?',
    answer: new RegExp(`^${field('maker')},${field('model')},${field('serialNumber')},(?<firmware>[^;]*)$`),
    timeoutMs: 1500,
  },
  unit: {
    wish: 'UNIT:POW DBMV',
    confirm: { ask: 'UNIT:POW?', answer: /^"?(?<unit>[A-Za-z]+)"?$/, timeoutMs: 1500 },
  },
  impedanceOhm: 75,
  level: {
    ask: 'SENS:FREQ:CENT {hz};CENT?;:READ:POW?;:SYST:ERR?',
    answer: new RegExp(`^(?<hz>${number});(?<level>${number});${error}$`),
    timeoutMs: 3000,
  },
  noLevelFrom: 9.9e37,
  tuneWithinMhz: 0.05,
  nextError: { ask: 'SYST:ERR?', answer: new RegExp(`^${error}$`), timeoutMs: 1500 },
  errorQueueDepth: 100,
  errorHelp: scpiErrorHelp,
};
