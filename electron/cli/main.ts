import packed from '../../package.json' with { type: 'json' };
import { runProgram } from './program.ts';
import { archive } from './verbs/archive.ts';
import { convert } from './verbs/convert.ts';
import { curve } from './verbs/curve.ts';
import { fit } from './verbs/fit.ts';
import { gainControl } from './verbs/gain-control.ts';
import { inspect } from './verbs/inspect.ts';
import { meterCheck } from './verbs/meter-check.ts';
import { noise } from './verbs/noise.ts';
import { propose } from './verbs/propose.ts';
import { report } from './verbs/report.ts';
import { season } from './verbs/season.ts';
import { simulate } from './verbs/simulate.ts';
import { span } from './verbs/span.ts';
import { sweep } from './verbs/sweep.ts';

const stop = new AbortController();
for (const name of ['SIGINT', 'SIGTERM'] as const) process.once(name, () => stop.abort());
// A reader that has seen enough (| head) closes the pipe; that is no fault of ours.
process.stdout.on('error', () => undefined);

process.exitCode = await runProgram(
  [
    fit,
    propose,
    sweep,
    simulate,
    gainControl,
    season,
    span,
    noise,
    inspect,
    convert,
    curve,
    report,
    meterCheck,
    archive,
  ],
  process.argv.slice(2),
  {
    version: packed.version,
    stdout: (text) => void process.stdout.write(text),
    stderr: (text) => void process.stderr.write(text),
    stderrIsTerminal: process.stderr.isTTY === true,
    signal: stop.signal,
  },
);
