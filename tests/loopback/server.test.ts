import { once } from 'node:events';
import { createServer } from 'node:net';
import { networkInterfaces } from 'node:os';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { createClient } from '../../core/bridge/client.ts';
import { enter, openSocketWire } from '../support/loopback-client.ts';
import { type TestLoopback, testLoopback } from '../support/loopback-host.ts';
import { plainHandlers } from '../support/plain-handlers.ts';

const handlers = plainHandlers({ 'meters.disconnect': async () => ({}) });

describe('the loopback host', () => {
  let host: TestLoopback;
  let origin: string;
  const get = (path: string, headers: Record<string, string> = {}) =>
    fetch(`${origin}${path}`, { headers, redirect: 'manual' });
  const post = (body: string, headers: Record<string, string> = {}) =>
    fetch(`${origin}/session`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', origin, ...headers },
      body,
    });
  const codeOf = (link: string) => link.split('#code=')[1] ?? '';

  beforeEach(async () => {
    host = await testLoopback(handlers);
    origin = `http://127.0.0.1:${host.port}`;
  });
  afterEach(() => host.close());

  it('gives links whose code no browser sends by itself', () => {
    const link = host.link(1000);
    expect(link).toMatch(new RegExp(`^http://127\\.0\\.0\\.1:${host.port}/#code=[\\w-]{32}$`));
    expect(new URL(link).search).toBe('');
    expect(host.link(1000)).not.toBe(link);
  });

  it('shows anybody the door, and nothing behind it', async () => {
    const door = await get('/');
    expect(await door.text()).toContain('Open it with the link');
    expect(await (await get('/session')).json()).toEqual({ open: false });
    const page = await get('/workbench/');
    expect([page.status, page.headers.get('location')]).toEqual([302, '/']);
    expect((await get('/workbench/page.js')).status).toBe(401);
    expect((await get('/workbench/index.html')).status).toBe(401);
    expect((await get('/socket')).status).toBe(401);
  });

  it('changes a code once for a cookie that the page can not read', async () => {
    const code = codeOf(host.link(60_000));
    const body = JSON.stringify({ code });
    const answer = await post(body);
    expect(answer.status).toBe(204);
    const cookie = answer.headers.get('set-cookie') ?? '';
    expect(cookie).toMatch(new RegExp(`^tiltwright-${host.port}=[\\w-]{32};`));
    expect(cookie).toContain('HttpOnly');
    expect(cookie).toContain('SameSite=Strict');
    expect(cookie).not.toContain(code);
    const again = await post(body);
    expect([again.status, again.headers.get('set-cookie')]).toEqual([401, null]);
  });

  it('shows the page to a browser with the cookie, at every loading', async () => {
    const cookie = await enter(host.link(60_000));
    for (let i = 0; i < 3; i += 1) {
      const page = await get('/workbench/', { cookie });
      expect([page.status, await page.text()]).toEqual([200, expect.stringContaining('the page')]);
    }
    expect((await get('/workbench/page.js', { cookie })).headers.get('content-type')).toContain('javascript');
    expect((await get('/workbench/.hidden', { cookie })).status).toBe(403);
    expect((await get('/workbench/%2e%2e/package.json', { cookie })).status).not.toBe(200);
    expect((await get('/workbench/nothing.js', { cookie })).status).toBe(404);
    expect(await (await get('/session', { cookie })).json()).toEqual({ open: true });
  });

  it('takes no cookie of another port', async () => {
    const secret = (await enter(host.link(60_000))).split('=')[1];
    expect((await get('/workbench/', { cookie: `tiltwright-1=${secret}` })).status).toBe(302);
  });

  it.each([
    ['another origin', { origin: 'http://evil.example' }, 403],
    ['another site', { 'sec-fetch-site': 'cross-site' }, 403],
    ['a neighbour’s port', { 'sec-fetch-site': 'same-site' }, 403],
    ['plain text', { 'content-type': 'text/plain' }, 415],
    ['a form', { 'content-type': 'application/x-www-form-urlencoded' }, 415],
  ])('refuses a code from %s, and the code stays good', async (_what, headers, status) => {
    const code = codeOf(host.link(60_000));
    const refused = await post(JSON.stringify({ code }), headers);
    expect([refused.status, refused.headers.get('set-cookie')]).toEqual([status, null]);
    expect((await post(JSON.stringify({ code }))).status).toBe(204);
  });

  it('refuses a code without an origin', async () => {
    const answer = await fetch(`${origin}/session`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ code: codeOf(host.link(60_000)) }),
    });
    expect(answer.status).toBe(403);
  });

  it.each([
    ['no JSON', '{"code":', 400],
    ['no code', '{}', 401],
    ['a key too many', '{"code":"a","b":1}', 401],
    ['too much', JSON.stringify({ code: 'x'.repeat(70_000) }), 413],
  ])('refuses %s', async (_what, body, status) => {
    const answer = await post(body);
    expect(answer.status).toBe(status);
    expect(await answer.text()).not.toContain(import.meta.dirname);
  });

  it('puts the strict headers on every answer, and opens nothing to other origins', async () => {
    const cookie = await enter(host.link(60_000));
    const answers = [
      await get('/'),
      await get('/door.js'),
      await get('/workbench/', { cookie }),
      await get('/workbench/page.js', { cookie }),
      await get('/nowhere'),
      await get('/', { 'sec-fetch-site': 'cross-site' }),
      await post('{}'),
    ];
    for (const { headers } of answers) {
      const policy = headers.get('content-security-policy') ?? '';
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("script-src 'self';");
      expect(policy).toContain("style-src 'self';");
      expect(policy).toContain(`connect-src 'self' ws://127.0.0.1:${host.port};`);
      expect(policy).toContain("require-trusted-types-for 'script'");
      expect(policy).not.toMatch(/unsafe|\*|http:/);
      expect(headers.get('x-content-type-options')).toBe('nosniff');
      expect(headers.get('referrer-policy')).toBe('no-referrer');
      expect(headers.get('cross-origin-opener-policy')).toBe('same-origin');
      expect(headers.get('cross-origin-resource-policy')).toBe('same-origin');
      expect(headers.get('permissions-policy')).toContain('serial=()');
      expect(headers.get('cache-control')).toBe('no-store');
      expect([...headers.keys()].filter((name) => name.startsWith('access-control'))).toEqual([]);
    }
  });

  it.each([
    ['no cookie', { cookie: '' }],
    ['another origin', { origin: 'http://evil.example' }],
    ['another site', { 'sec-fetch-site': 'cross-site' }],
    ['another host', { host: 'evil.example' }],
  ])('opens no socket with %s', async (_what, wrong) => {
    const cookie = await enter(host.link(60_000));
    const socket = new WebSocket(`ws://127.0.0.1:${host.port}/socket`, {
      headers: { origin, cookie, ...wrong },
    });
    const [fault] = await once(socket, 'error');
    expect(String(fault)).toMatch(/Unexpected server response: 40[013]/);
  });

  it('listens on 127.0.0.1 and on no other address of this computer', async () => {
    const others = Object.values(networkInterfaces())
      .flatMap((addresses) => addresses ?? [])
      .filter(({ family, internal }) => family === 'IPv4' && !internal);
    for (const { address } of others) {
      await expect(fetch(`http://${address}:${host.port}/`)).rejects.toThrow();
    }
  });
});

describe('the port', () => {
  it('is another one when the preferred one is taken, and works as well', async () => {
    const first = await testLoopback(handlers, { port: null });
    const second = await testLoopback(handlers, { port: null });
    expect(second.port).not.toBe(first.port);
    const cookie = await enter(second.link(1000));
    const client = createClient((await openSocketWire(second.port, cookie)).wire);
    expect(await client.call('meters.disconnect', {})).toEqual({});
    await second.close();
    await first.close();
  });

  it('that was asked for by number is that one or none', async () => {
    const blocker = createServer().listen(0, '127.0.0.1');
    await once(blocker, 'listening');
    const address = blocker.address();
    const taken = typeof address === 'object' && address !== null ? address.port : 0;
    await expect(testLoopback(handlers, { port: taken })).rejects.toThrow(`port ${taken} is taken`);
    blocker.close();
    await once(blocker, 'close');
    const host = await testLoopback(handlers, { port: taken });
    expect(host.port).toBe(taken);
    await host.close();
  });
});
