/** Numbers only, in one form: nothing here can be taken for a formula or for another number. Empty where nothing was. */
export const digits = (value: number | null): string =>
  value === null ? '' : String(Math.round(value * 1000) / 1000);

/** Columns and rows for a spreadsheet. */
export const csvOf = (columns: readonly string[], rows: readonly (readonly string[])[]): string =>
  [columns, ...rows].map((row) => `${row.join(',')}\r\n`).join('');
