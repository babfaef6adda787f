/** How many points a QAM constellation can have. */
const ORDERS = [4, 16, 32, 64, 128, 256, 512, 1024, 2048, 4096];

/**
 * The order of a QAM signal from what a file or a meter calls its modulation.
 * @param modulation  "256-QAM", "QAM64", "qam 256", "64"
 * @returns  the number of points, or null where the words name none, two, or one that no QAM has
 * @source   ITU-T J.83 and common practice for the ways of writing it
 */
export function qamOrderOf(modulation: string): number | null {
  const text = modulation.trim();
  const found = /^(?:(\d+)(?:\s*-?\s*QAM)?|QAM\s*-?\s*(\d+))$/i.exec(text);
  const order = Number(found?.[1] ?? found?.[2] ?? Number.NaN);
  return ORDERS.includes(order) ? order : null;
}
