import { parseArgs } from 'node:util';
import { done, type Result, refuse } from '../core/result.ts';

export type StartOptions = Readonly<{
  browser: boolean;
  open: boolean;
  data: string | undefined;
  port: number | null;
}>;

const usage = 'npm start -- [--browser] [--data DIR] [--no-open] [--port N]';

/** What stands behind `npm start --`; an option that we don't have is named, never ignored. */
export function readStartOptions(words: readonly string[]): Result<StartOptions, 'option'> {
  try {
    const { values } = parseArgs({
      args: [...words],
      options: {
        browser: { type: 'boolean', default: false },
        'no-open': { type: 'boolean', default: false },
        data: { type: 'string' },
        port: { type: 'string' },
      },
    });
    if (values.data === '') return refuse('option', '--data', 'name a folder');
    const port = values.port === undefined ? null : Number(values.port);
    // Digits only: an empty word would be 0, and so any port.
    if (port !== null && !(/^\d{1,5}$/.test(values.port ?? '') && port <= 65_535)) {
      return refuse(
        'option',
        `--port ${values.port}`,
        'a port is a number from 1 to 65535, or 0 for any that is free',
      );
    }
    return done({ browser: values.browser, open: !values['no-open'], data: values.data, port });
  } catch (fault) {
    // Node's own words name the option; its advice after the first sentence is for programmers.
    const words = fault instanceof Error ? (fault.message.split(/\. |\n/)[0] ?? '') : String(fault);
    return refuse('option', words, usage);
  }
}
