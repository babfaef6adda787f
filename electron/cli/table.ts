/** dB and dBmV with one decimal, as many as a meter deserves; a minus that rounds to nothing is no minus. */
export function decibels(value: number): string {
  const text = value.toFixed(1);
  return text === '-0.0' ? '0.0' : text;
}

/** With its sign, where the sign matters: a tilt, a deviation. */
export const signed = (value: number): string => {
  const text = decibels(value);
  return text.startsWith('-') || text === '0.0' ? text : `+${text}`;
};

/** A frequency with as many decimals as it has, at most three. */
export const megahertz = (frequencyMhz: number): string => `${Number(frequencyMhz.toFixed(3))} MHz`;

/** Rows of cells as lines: every column as wide as its widest cell; numbers, which begin with a sign or digit, right. */
export function aligned(rows: readonly (readonly string[])[], indent = ''): string[] {
  const widths: number[] = [];
  for (const row of rows)
    row.forEach((cell, i) => {
      widths[i] = Math.max(widths[i] ?? 0, cell.length);
    });
  return rows.map((row) =>
    `${indent}${row
      .map((cell, i) => (/^[+-]?\d/.test(cell) ? cell.padStart(widths[i] ?? 0) : cell.padEnd(widths[i] ?? 0)))
      .join('  ')}`.trimEnd(),
  );
}
