/** A frequency in MHz with the kHz that people write, and more digits only where they are needed. */
const megahertz = (hz: number): string => {
  const written = (hz / 1e6).toFixed(6);
  return written.endsWith('000') ? written.slice(0, -3) : written;
};

const fill = (text: string, values: Readonly<Record<string, string>>): string =>
  text.replace(/\{(\w+)\}/g, (whole, place: string) => values[place] ?? whole);

/** A question about one frequency, given in whole Hz. */
export const aboutFrequency = (text: string, hz: number): string =>
  fill(text, { hz: String(hz), khz: String(hz / 1000), mhz: megahertz(hz) });

/** A question about a span, given in whole Hz. */
export const aboutSpan = (
  text: string,
  span: Readonly<{ startHz: number; stopHz: number; points: number }>,
): string =>
  fill(text, {
    startHz: String(span.startHz),
    stopHz: String(span.stopHz),
    startMhz: megahertz(span.startHz),
    stopMhz: megahertz(span.stopHz),
    points: String(span.points),
  });
