/** How a sweep lies against its design line, in numbers. */
export type HeadlineParts = Readonly<{
  verdict: 'pass' | 'fail' | 'undecided';
  /** Where undecided: what the worst channel's deviation and the flatness are good to (95 of 100 times), dB. */
  goodToDb?: Readonly<{ worstDb: number; flatnessDb: number }>;
  toleranceDb: number;
  /** The lowest and the highest frequency that was read, and how far the fitted line is from the design there. */
  low: Readonly<{ frequencyMhz: number; deviationDb: number }>;
  high: Readonly<{ frequencyMhz: number; deviationDb: number }>;
  /** Tilt of the design between its low and high frequency. */
  designTiltDb: number;
  /** Tilt of the fitted line less that of the design, between the same two. */
  tiltDeviationDb: number;
  flatness: Readonly<{ valueDb: number; targetDb: number }>;
  worst: Readonly<{ frequencyMhz: number; deviationDb: number }>;
}>;

const db = (valueDb: number): string => Math.abs(valueDb).toFixed(1);
const mhz = (frequencyMhz: number): string => `${Math.round(frequencyMhz)} MHz`;
const side = (deviationDb: number): string => (deviationDb < 0 ? 'low' : 'high');
const offAt = (end: Readonly<{ frequencyMhz: number; deviationDb: number }>): string =>
  `${db(end.deviationDb)} dB ${side(end.deviationDb)} at ${mhz(end.frequencyMhz)}`;

/**
 * The finding in words, for the top of a station's sheet: "2.1 dB low at 867 MHz, right at the low end".
 * @param parts  MHz and dB; an end is right when its line is within toleranceDb of the design
 * @returns  one line; frequencies in whole MHz, dB with one decimal
 * @source   common practice, no published source
 */
export function headlineOf(parts: HeadlineParts): string {
  const { low, high, toleranceDb, worst, flatness } = parts;
  if (parts.verdict === 'pass') return `On design: worst channel ${db(worst.deviationDb)} dB`;
  if (parts.verdict === 'undecided') return tooNear(parts);
  const lowIsOff = Math.abs(low.deviationDb) > toleranceDb;
  const highIsOff = Math.abs(high.deviationDb) > toleranceDb;
  const ragged =
    flatness.valueDb > flatness.targetDb
      ? `flatness ${db(flatness.valueDb)} of ${db(flatness.targetDb)} dB`
      : '';
  const withFlatness = (line: string) => (ragged === '' ? line : `${line}, ${ragged}`);

  if (lowIsOff && highIsOff) return withFlatness(bothOff(parts));
  if (highIsOff) return withFlatness(`${offAt(high)}, right at the low end`);
  if (lowIsOff) return withFlatness(`${offAt(low)}, right at the high end`);
  if (ragged !== '') return `Level and tilt right, ${ragged}`;
  return `Level and tilt right, but ${offAt(worst)}`;
}

/** The limit lies within what the reading is uncertain by. */
function tooNear({ worst, toleranceDb, flatness, goodToDb }: HeadlineParts): string {
  const goodTo = (valueDb: number | undefined) =>
    valueDb === undefined ? '' : `, and this reading is good to ±${db(valueDb)} dB`;
  const channelDb = toleranceDb - Math.abs(worst.deviationDb);
  const flatnessDb = flatness.targetDb - flatness.valueDb;
  return Math.abs(flatnessDb) < Math.abs(channelDb)
    ? `Undecided: flatness ${db(flatness.valueDb)} of ${db(flatness.targetDb)} dB${goodTo(goodToDb?.flatnessDb)}`
    : `Undecided: ${offAt(worst)} of ${db(toleranceDb)} dB${goodTo(goodToDb?.worstDb)}`;
}

function bothOff({ low, high, toleranceDb, designTiltDb, tiltDeviationDb }: HeadlineParts): string {
  const middleDb = (low.deviationDb + high.deviationDb) / 2;
  const sameSide = low.deviationDb < 0 === high.deviationDb < 0;
  if (sameSide && Math.abs(high.deviationDb - low.deviationDb) <= toleranceDb)
    return `${db(middleDb)} dB ${side(middleDb)} all across`;
  if (!sameSide && Math.abs(middleDb) <= toleranceDb)
    return `Level right, ${tiltWords(designTiltDb, tiltDeviationDb)}`;
  return `${offAt(low)}, ${offAt(high)}`;
}

/** Short and too much are said of the tilt that the design wants, whichever way it goes. */
function tiltWords(designTiltDb: number, tiltDeviationDb: number): string {
  if (designTiltDb === 0) {
    const way = tiltDeviationDb < 0 ? 'falls' : 'rises';
    return `but it ${way} ${db(tiltDeviationDb)} dB where the design is flat`;
  }
  const isShort = tiltDeviationDb < 0 === designTiltDb > 0;
  return `tilt ${db(tiltDeviationDb)} dB ${isShort ? 'short' : 'too much'}`;
}
