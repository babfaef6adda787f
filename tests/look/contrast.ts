/** Relative luminance of an sRGB colour, 0 to 1, after WCAG 2.2, "relative luminance". */
export function luminance([red, green, blue]: readonly [number, number, number]): number {
  const linear = (value: number): number => {
    const share = value / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);
}

/** The contrast ratio of two relative luminances, 1 to 21, after WCAG 2.2, "contrast ratio". */
export const contrastOf = (one: number, other: number): number =>
  (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);

const channels = (hex: string): readonly [number, number, number] => {
  const at = (from: number) => Number.parseInt(hex.slice(from, from + 2), 16);
  return [at(1), at(3), at(5)];
};

/** The contrast ratio of two colours written as #rrggbb. */
export const contrast = (one: string, other: string): number =>
  contrastOf(luminance(channels(one)), luminance(channels(other)));
