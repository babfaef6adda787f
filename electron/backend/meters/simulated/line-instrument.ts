import { checksumOf } from '../../../../core/meters/match-answer.ts';
import type { Instrument, LevelSource, Response } from './instrument.ts';

export type LineInstrumentParts = Readonly<{
  source: LevelSource;
  /** Maker, model, serial number, firmware; without commas. */
  identity?: readonly [string, string, string, string];
  /** Day of the last calibration, YYYY-MM-DD. */
  calibratedOn?: string | null;
  lowestMhz?: number;
  highestMhz?: number;
  /** True where it has no reading at a frequency, not even that there is no level. */
  lacks?: (frequencyMhz: number) => boolean;
}>;

const UNKNOWN = 'ERR 1 unknown command';
const OUT_OF_RANGE = 'ERR 2 out of range';

/** A meter that speaks the plain line protocol: one line a question, one line an answer. */
export class LineInstrument implements Instrument {
  readonly #parts: LineInstrumentParts;
  #draw = 0;

  constructor(parts: LineInstrumentParts) {
    this.#parts = parts;
  }

  take(line: string): Response {
    const before = this.#draw;
    const [, word = '', checked = '', rest = ''] = /^([A-Z]+\??)(!?)(.*)$/.exec(line.trim()) ?? [];
    const said = line.trim() === '' ? null : this.#answer(word, rest.trim());
    const answer = said === null || checked === '' ? said : `${said} *${checksumOf(`${said} *`)}`;
    return { answer, readings: this.#draw - before, points: 0 };
  }

  overrun(): void {
    // It keeps nothing of a line that is too long.
  }

  #answer(word: string, rest: string): string {
    const { identity = ['Quillmere Instrument Works', 'Hobby Adapter', 'QIW-0100', '1'], calibratedOn } =
      this.#parts;
    if (word === 'ID?' && rest === '') return `ID ${identity.join(',')}`;
    if (word === 'CAL?' && rest === '') return `CAL ${calibratedOn ?? 'none'} OK`;
    if (word !== 'READ') return UNKNOWN;
    return this.#read(rest);
  }

  #read(written: string): string {
    const { source, lowestMhz = 1, highestMhz = 1300, lacks } = this.#parts;
    const frequencyMhz = /^\d{1,4}(\.\d{1,6})?$/.test(written) ? Number(written) : Number.NaN;
    if (!(frequencyMhz >= lowestMhz && frequencyMhz <= highestMhz) || lacks?.(frequencyMhz))
      return OUT_OF_RANGE;
    const levelDbmv = source(frequencyMhz, this.#draw);
    this.#draw += 1;
    return `${frequencyMhz.toFixed(3)} ${levelDbmv === null ? 'none' : levelDbmv.toFixed(2)} dBmV OK`;
  }
}
