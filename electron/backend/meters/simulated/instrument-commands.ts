import { type LevelUnit, levelUnits } from '../profile.ts';
import { type Act, asks, does, type Effect, type InstrumentCommand, inUnit } from './instrument-command.ts';
import { startTrace, sweepSpan, type TraceState, traceCommands } from './instrument-trace-commands.ts';
import type { ErrorQueue } from './scpi-errors.ts';
import { readByte, readHz } from './scpi-number.ts';

/** What the instrument is set to and what it holds. */
export type InstrumentState = {
  readonly identity: string;
  readonly units: readonly LevelUnit[];
  readonly rangeHz: Readonly<{ lowest: number; highest: number; start: number }>;
  readonly startUnit: LevelUnit;
  readonly errors: ErrorQueue;
  /** A fresh reading at the tuned frequency in dBmV, null where there is none. */
  readonly measure: () => number | null;
  /** One point of a trace in dBmV; quicker than a reading. */
  readonly measureAt: (hz: number) => number | null;
  unit: LevelUnit;
  centerHz: number;
  eventsEnabled: number;
  requestsEnabled: number;
  /** The reading that FETCh? gives again; undefined before the first. */
  held: number | null | undefined;
  trace: TraceState;
};

export type { Effect, InstrumentCommand };

const MISSING_READING = -230;
const ILLEGAL_PARAMETER = -224;
/** SCPI's "not a number": the instrument has no level to give. */
const NOT_A_NUMBER = '9.91E+37';

function levelText(state: InstrumentState): Effect {
  if (state.held === undefined) return { code: MISSING_READING };
  if (state.held === null) return NOT_A_NUMBER;
  return inUnit(state.held, state.unit);
}

function measured(state: InstrumentState): Effect {
  state.held = state.measure();
  return levelText(state);
}

function setRegister(set: (state: InstrumentState, amount: number) => void): Act {
  return (state, [parameter = '']) => {
    const read = readByte(parameter);
    if (!read.ok) return read;
    set(state, read.amount);
    return null;
  };
}

const summary = ({ errors, eventsEnabled, requestsEnabled }: InstrumentState): number => {
  const status = (errors.count > 0 ? 4 : 0) + ((errors.events & eventsEnabled) !== 0 ? 32 : 0);
  return status + ((status & requestsEnabled) !== 0 ? 64 : 0);
};

/** Everything that the instrument knows: the mandatory common commands of IEEE 488.2, and what reading levels needs. */
export const instrumentCommands: readonly InstrumentCommand[] = [
  asks('*IDN', (state) => state.identity),
  does('*RST', 0, (state) => {
    state.unit = state.startUnit;
    state.centerHz = state.rangeHz.start;
    state.held = undefined;
    state.trace = startTrace();
    return null;
  }),
  does('*CLS', 0, (state) => {
    state.errors.clear();
    return null;
  }),
  does('*OPC', 0, (state) => {
    state.errors.events |= 1;
    return null;
  }),
  asks('*OPC', () => '1'),
  does('*WAI', 0, () => null),
  asks('*TST', () => '0'),
  asks('*ESR', (state) => {
    const events = state.errors.events;
    state.errors.events = 0;
    return String(events);
  }),
  asks('*STB', (state) => String(summary(state))),
  asks('*ESE', (state) => String(state.eventsEnabled)),
  does(
    '*ESE',
    1,
    setRegister((state, amount) => {
      state.eventsEnabled = amount;
    }),
  ),
  asks('*SRE', (state) => String(state.requestsEnabled)),
  does(
    '*SRE',
    1,
    setRegister((state, amount) => {
      state.requestsEnabled = amount;
    }),
  ),
  asks('SYSTem:ERRor[:NEXT]', (state) => state.errors.next()),
  asks('SYSTem:ERRor:COUNt', (state) => String(state.errors.count)),
  asks('SYSTem:VERSion', () => '1999.0'),
  asks('UNIT:POWer', (state) => state.unit),
  does('UNIT:POWer', 1, (state, [parameter = '']) => {
    const unit = levelUnits.find((known) => known === parameter.toUpperCase());
    if (unit === undefined || !state.units.includes(unit)) return { code: ILLEGAL_PARAMETER };
    state.unit = unit;
    return null;
  }),
  asks('[SENSe]:FREQuency:CENTer', (state) => String(state.centerHz)),
  does('[SENSe]:FREQuency:CENTer', 1, (state, [parameter = '']) => {
    const read = readHz(parameter, state.rangeHz);
    if (!read.ok) return read;
    state.centerHz = read.amount;
    state.trace.spanned = false;
    // What was read before belongs to another frequency.
    state.held = undefined;
    return null;
  }),
  does('INITiate[:IMMediate]', 0, (state) => {
    if (state.trace.spanned) sweepSpan(state);
    else state.held = state.measure();
    return null;
  }),
  asks('FETCh[:SCALar][:POWer][:AC]', levelText),
  asks('READ[:SCALar][:POWer][:AC]', measured),
  asks('MEASure[:SCALar]:POWer[:AC]', measured),
  ...traceCommands,
];
