import { asks, does, inUnit } from './instrument-command.ts';
import type { InstrumentCommand, InstrumentState } from './instrument-commands.ts';
import { readHz, readWhole } from './scpi-number.ts';

const ILLEGAL_PARAMETER = -224;
const DATA_STALE = -230;
const NOT_A_NUMBER = 9.91e37;
const MOST_POINTS = 1001;

/** What the instrument is set to for traces. */
export type TraceState = {
  startHz: number;
  stopHz: number;
  points: number;
  /** True while it sweeps a span; a centre frequency alone makes it a receiver at one frequency. */
  spanned: boolean;
  format: 'ascii' | 'real32' | 'real64';
  swapped: boolean;
  /** dBmV, null where there is none; null as a whole before the first sweep. */
  held: readonly (number | null)[] | null;
};

export const startTrace = (): TraceState => ({
  startHz: 5e6,
  stopHz: 1.005e9,
  points: 501,
  spanned: false,
  format: 'ascii',
  swapped: false,
  held: null,
});

/** Sweeps the span once. */
export function sweepSpan(state: InstrumentState): void {
  const { startHz, stopHz, points } = state.trace;
  const stepHz = (stopHz - startHz) / (points - 1);
  state.trace.held = Array.from({ length: points }, (_, i) => state.measureAt(startHz + i * stepHz));
}

function traceText(state: InstrumentState) {
  const { held, format, swapped } = state.trace;
  if (held === null) return { code: DATA_STALE };
  const amounts = held.map((levelDbmv) =>
    levelDbmv === null ? NOT_A_NUMBER : Number(inUnit(levelDbmv, state.unit)),
  );
  if (format === 'ascii')
    return amounts.map((amount) => (amount === NOT_A_NUMBER ? '9.91E+37' : String(amount))).join(',');
  const width = format === 'real32' ? 4 : 8;
  const view = new DataView(new ArrayBuffer(width * amounts.length));
  amounts.forEach((amount, i) => {
    if (width === 4) view.setFloat32(i * 4, amount, swapped);
    else view.setFloat64(i * 8, amount, swapped);
  });
  const length = String(view.byteLength);
  return `#${length.length}${length}${Buffer.from(view.buffer).toString('latin1')}`;
}

const setHz =
  (set: (trace: TraceState, hz: number) => void) =>
  (state: InstrumentState, [parameter = '']: readonly string[]) => {
    const read = readHz(parameter, state.rangeHz);
    if (!read.ok) return read;
    set(state.trace, read.amount);
    state.trace.spanned = true;
    state.trace.held = null;
    return null;
  };

/** The span, its points and its trace, as SCPI-1999 has them. */
export const traceCommands: readonly InstrumentCommand[] = [
  asks('[SENSe]:FREQuency:STARt', (state) => String(state.trace.startHz)),
  does(
    '[SENSe]:FREQuency:STARt',
    1,
    setHz((trace, hz) => {
      trace.startHz = hz;
    }),
  ),
  asks('[SENSe]:FREQuency:STOP', (state) => String(state.trace.stopHz)),
  does(
    '[SENSe]:FREQuency:STOP',
    1,
    setHz((trace, hz) => {
      trace.stopHz = hz;
    }),
  ),
  asks('[SENSe]:SWEep:POINts', (state) => String(state.trace.points)),
  does('[SENSe]:SWEep:POINts', 1, (state, [parameter = '']) => {
    const read = readWhole(parameter, 2, MOST_POINTS);
    if (!read.ok) return read;
    state.trace.points = read.amount;
    state.trace.held = null;
    return null;
  }),
  does('INITiate:CONTinuous', 1, () => null),
  does('FORMat[:DATA]', 2, (state, [kind = '', bits = '']) => {
    if (/^ASC(ii)?$/i.test(kind)) state.trace.format = 'ascii';
    else if (/^REAL$/i.test(kind) && bits === '32') state.trace.format = 'real32';
    else if (/^REAL$/i.test(kind) && bits === '64') state.trace.format = 'real64';
    else return { code: ILLEGAL_PARAMETER };
    return null;
  }),
  does('FORMat:BORDer', 1, (state, [order = '']) => {
    if (!/^(NORM(al)?|SWAP(ped)?)$/i.test(order)) return { code: ILLEGAL_PARAMETER };
    state.trace.swapped = /^SWAP/i.test(order);
    return null;
  }),
  asks(
    'TRACe[:DATA]',
    (state, [name = '']) =>
      name.toUpperCase() === 'TRACE1' ? traceText(state) : { code: ILLEGAL_PARAMETER },
    1,
  ),
];
