import type { Profile } from './profile.ts';
import line from './profiles/line.json' with { type: 'json' };
import lineChecked from './profiles/line-checked.json' with { type: 'json' };
import replay from './profiles/replay.json' with { type: 'json' };
import { scpi } from './profiles/scpi.ts';
import scpiTrace from './profiles/scpi-trace.json' with { type: 'json' };
import scpiTraceBlock from './profiles/scpi-trace-block.json' with { type: 'json' };
import { shipped } from './shipped-profile.ts';

/** Every profile of the folder `profiles`; a test compares the two. */
export const knownProfiles: readonly Profile[] = [
  scpi,
  shipped(scpiTrace, 'scpi-trace.json'),
  shipped(scpiTraceBlock, 'scpi-trace-block.json'),
  shipped(line, 'line.json'),
  shipped(lineChecked, 'line-checked.json'),
  shipped(replay, 'replay.json'),
];
