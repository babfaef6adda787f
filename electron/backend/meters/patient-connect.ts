import type { LinkNews } from './link-news.ts';
import { type Meter, MeterFault } from './meter-shop.ts';
import type { NewPorts } from './new-ports.ts';
import { pause } from './patience.ts';
import type { Recovery } from './steady-meter.ts';

export type PatientParts = Readonly<{
  path: string;
  open: (signal: AbortSignal) => Promise<Meter>;
  newPorts: Pick<NewPorts, 'ageMs'>;
  recovery: Recovery;
  news?: (news: LinkNews) => void;
  rest?: (restMs: number, signal: AbortSignal) => Promise<void>;
}>;

/** What a port that was just plugged in may still say, and what we tell of it; nothing for what waiting does not mend. */
function passing(fault: unknown): string | null {
  if (!(fault instanceof MeterFault)) return null;
  switch (fault.code) {
    case 'port-busy':
      return 'another program, or the system itself, still has it';
    case 'no-permission':
      return 'the system has not yet handed it out';
    case 'not-understood':
      return 'what comes from it is not the meter, or not the meter alone';
    case 'silent':
      return 'the meter behind it does not answer yet';
    case 'lost':
      return 'it went away again';
    case 'no-such-port':
    case 'meter-error':
      return null;
  }
}

const unplugAndReplug = 'or unplug the adapter and plug it in again';

/**
 * Connects to a port for the first time. For half a minute after an adapter is plugged in, its system talks to it (Linux asks
 * whether it is a modem), or still has an earlier handle (Windows): so long it is tried again, with growing rests. A port that has
 * been there for longer gets its one answer at once. Rejects with the last fault, or with the signal's reason.
 */
export async function connectPatiently(parts: PatientParts, signal: AbortSignal): Promise<Meter> {
  const { path, open, newPorts, recovery, news = () => undefined, rest = pause } = parts;
  for (
    let waitMs = recovery.firstMs, tries = 1;
    ;
    waitMs = Math.min(waitMs * 2, recovery.mostMs), tries += 1
  ) {
    try {
      return await open(signal);
    } catch (fault) {
      signal.throwIfAborted();
      const why = passing(fault);
      const ageMs = why === null ? null : await newPorts.ageMs(path);
      if (why === null || ageMs === null || !(fault instanceof MeterFault)) throw fault;
      const leftMs = recovery.withinMs - ageMs;
      if (leftMs <= 0) throw tries === 1 ? fault : worn(fault);
      news({ link: 'waiting', why, leftMs: Math.round(leftMs) });
      await rest(Math.min(waitMs, leftMs), signal);
    }
  }
}

const worn = ({ code, where, help }: MeterFault) =>
  new MeterFault(code, where, `${help}; ${unplugAndReplug}`);
