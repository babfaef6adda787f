import { once } from 'node:events';
import { connect } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { guardRequest } from '../../electron/loopback/guard.ts';
import { type TestLoopback, testLoopback } from '../support/loopback-host.ts';
import { plainHandlers } from '../support/plain-handlers.ts';

const port = 47187;
const ours = '127.0.0.1:47187';

function verdict(headers: Record<string, string>, needsOrigin = false) {
  const rawHeaders = Object.entries(headers).flat();
  return guardRequest({ headers, rawHeaders }, port, needsOrigin).allowed;
}

describe('the guard', () => {
  it.each([
    [{ host: ours }, false],
    [{ host: ours, 'sec-fetch-site': 'none' }, false],
    [{ host: ours, 'sec-fetch-site': 'same-origin', origin: `http://${ours}` }, false],
    [{ host: ours, origin: `http://${ours}` }, true],
  ])('lets our own page pass: %j', (headers, needsOrigin) => {
    expect(verdict(headers, needsOrigin)).toBe(true);
  });

  it.each([
    {},
    { host: '127.0.0.1' },
    { host: '127.0.0.1:80' },
    { host: `localhost:${port}` },
    { host: `127.attacker.example:${port}` },
    { host: `127.0.0.1.attacker.example:${port}` },
    { host: `${ours}.attacker.example` },
    { host: `[::1]:${port}` },
    { host: `0.0.0.0:${port}` },
    { host: ` ${ours}` },
  ])('answers to its own address only: %j', (headers: Record<string, string>) => {
    expect(verdict(headers)).toBe(false);
  });

  it.each(['cross-site', 'same-site', 'anything'])('refuses what another page asks: %s', (site) => {
    expect(verdict({ host: ours, 'sec-fetch-site': site })).toBe(false);
  });

  it.each([
    'null',
    'http://127.0.0.1',
    `http://localhost:${port}`,
    `https://${ours}`,
    `http://${ours}/`,
    `http://${ours}.attacker.example`,
    'http://attacker.example',
  ])('refuses another origin, asked for or not: %s', (origin) => {
    expect(verdict({ host: ours, origin })).toBe(false);
    expect(verdict({ host: ours, origin }, true)).toBe(false);
  });

  it('asks for an origin where something changes', () => {
    expect(verdict({ host: ours }, true)).toBe(false);
  });
});

describe('over a raw socket', () => {
  let host: TestLoopback;
  beforeAll(async () => {
    host = await testLoopback(plainHandlers({}));
  });
  afterAll(() => host.close());

  async function statusOf(lines: readonly string[]): Promise<number> {
    const socket = connect(host.port, '127.0.0.1');
    await once(socket, 'connect');
    socket.write(`${[...lines, 'Connection: close'].join('\r\n')}\r\n\r\n`);
    let text = '';
    for await (const piece of socket) text += String(piece);
    return Number(/^HTTP\/1\.1 (\d{3})/.exec(text)?.[1]);
  }

  it('one exact Host is answered, none, two or another is not', async () => {
    const mine = `Host: 127.0.0.1:${host.port}`;
    expect(await statusOf(['GET / HTTP/1.1', mine])).toBe(200);
    expect(await statusOf(['GET / HTTP/1.1'])).toBe(400);
    expect(await statusOf(['GET / HTTP/1.0'])).toBe(400);
    expect(await statusOf(['GET / HTTP/1.1', mine, mine])).toBe(400);
    expect(await statusOf(['GET / HTTP/1.1', mine, 'Host: evil.example'])).toBe(400);
    expect(await statusOf(['GET / HTTP/1.1', 'Host: evil.example', mine])).toBe(400);
    expect(await statusOf(['GET / HTTP/1.1', 'Host: evil.example'])).toBe(400);
    // An address in the request line may not stand in for the Host.
    expect(await statusOf([`GET http://127.0.0.1:${host.port}/ HTTP/1.1`, 'Host: evil.example'])).toBe(400);
  });

  it('ways out of the page’s folder lead nowhere', async () => {
    const mine = `Host: 127.0.0.1:${host.port}`;
    for (const way of [
      '../package.json',
      '%2e%2e/package.json',
      '..%2fpackage.json',
      '%5c..%5cpackage.json',
      '%00',
    ])
      expect([400, 401, 404]).toContain(await statusOf([`GET /workbench/${way} HTTP/1.1`, mine]));
  });
});
