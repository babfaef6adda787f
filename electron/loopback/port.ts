import { z } from 'zod';

const Coded = z.object({ code: z.string() });

const isTaken = (fault: unknown): boolean => {
  const read = Coded.safeParse(fault);
  return read.success && (read.data.code === 'EADDRINUSE' || read.data.code === 'EACCES');
};

/** The port that was asked for is somebody else's. */
export class PortTaken extends Error {
  constructor(port: number) {
    super(`port ${port} is taken by another program: leave out --port, or name another`);
    this.name = 'PortTaken';
  }
}

/**
 * Listens on the port that was asked for or, when none was, on the preferred one, the nine after it, or any free one.
 * @param listen  rejects with EADDRINUSE when the port is taken; gives the port that it got
 */
export async function listenOnFreePort(
  listen: (port: number) => Promise<number>,
  preferred: number,
  asked: number | null,
): Promise<number> {
  const candidates = asked === null ? [...Array.from({ length: 10 }, (_, i) => preferred + i), 0] : [asked];
  for (const port of candidates) {
    try {
      return await listen(port);
    } catch (fault) {
      if (!isTaken(fault)) throw fault;
    }
  }
  throw new PortTaken(asked ?? preferred);
}
