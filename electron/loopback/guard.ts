import type { IncomingMessage } from 'node:http';

export type GuardVerdict = Readonly<{ allowed: true } | { allowed: false; status: 400 | 403; why: string }>;

const refused = (status: 400 | 403, why: string): GuardVerdict => ({ allowed: false, status, why });

const countOf = (request: Pick<IncomingMessage, 'rawHeaders'>, name: string): number =>
  request.rawHeaders.filter((word, i) => i % 2 === 0 && word.toLowerCase() === name).length;

/**
 * Whether a request may have come from our own page or from the person's address line. Any page in any browser of this
 * computer can reach 127.0.0.1, and a name of somebody else's can be made to mean it, so that the exact Host and Origin
 * decide, never a beginning or an address.
 * @param needsOrigin  true for everything that changes something, and for a WebSocket
 */
export function guardRequest(
  request: Pick<IncomingMessage, 'headers' | 'rawHeaders'>,
  port: number,
  needsOrigin: boolean,
): GuardVerdict {
  const { headers } = request;
  if (countOf(request, 'host') !== 1 || headers.host !== `127.0.0.1:${port}`) {
    return refused(400, 'this server answers to its own address only');
  }
  const site = headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none') {
    return refused(403, 'another page may not ask this server; open the address from the terminal yourself');
  }
  const ours = `http://127.0.0.1:${port}`;
  if (headers.origin === undefined ? needsOrigin : headers.origin !== ours) {
    return refused(403, 'another page may not ask this server');
  }
  return { allowed: true };
}
