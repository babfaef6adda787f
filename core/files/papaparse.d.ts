/** The few words of papaparse that the importer uses. Its published declarations bring Node's types, which core must not see. */
declare module 'papaparse' {
  type Problem = Readonly<{ type: string; code: string; message: string; row?: number }>;
  type Settings = Readonly<{ delimiter: string; newline: '\n'; skipEmptyLines: boolean; preview?: number }>;
  const papa: Readonly<{
    parse(text: string, settings: Settings): Readonly<{ data: string[][]; errors: Problem[] }>;
  }>;
  export = papa;
}
