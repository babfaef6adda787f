import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fileOf, pageOrigin, pageUrl, servePageFiles } from '../../electron/main/page-files.ts';

const folder = path.join(tmpdir(), 'page');

describe('an address of our scheme', () => {
  it('means a file in the folder of the page', () => {
    expect(fileOf(pageUrl, folder)).toBe(path.join(folder, 'index.html'));
    expect(fileOf(`${pageOrigin}/assets/a%20b.js?x=1#y`, folder)).toBe(path.join(folder, 'assets', 'a b.js'));
  });

  it.each([
    '/..%2fpackage.json',
    '/%2e%2e%2f%2e%2e%2fpackage.json',
    '/%252e%252e/package.json',
    '/assets/%5c..%5c..%5cpackage.json',
    '/index.html%00.js',
    '//etc/passwd',
    '/%2fetc/passwd',
    '/c:/windows/win.ini',
    '/c%3a/windows/win.ini',
    '/.git/config',
    '/assets/.hidden',
    '/assets/',
    '/',
    '/%',
    '/%ff',
  ])('never means one outside, or hidden, or a folder: %s', (way) => {
    expect(fileOf(`${pageOrigin}${way}`, folder)).toBeNull();
  });

  it.each(['/../../package.json', '/%2e%2e/package.json', '/assets/../../package.json'])(
    'is brought back inside by the address parser where it knows the dots: %s',
    (way) => {
      expect(fileOf(`${pageOrigin}${way}`, folder)).toBe(path.join(folder, 'package.json'));
    },
  );

  it.each([
    'tiltwright://other/index.html',
    'tiltwright://workbench.example/index.html',
    'tiltwright://workbench:80/index.html',
    'https://workbench/index.html',
    'file:///index.html',
    'no address',
  ])('is ours only with our own host: %s', (address) => {
    expect(fileOf(address, folder)).toBeNull();
  });
});

describe('the page’s files', () => {
  let built = '';
  beforeAll(() => {
    built = mkdtempSync(path.join(tmpdir(), 'tiltwright-built-'));
    mkdirSync(path.join(built, 'renderer', 'assets'), { recursive: true });
    writeFileSync(path.join(built, 'renderer', 'index.html'), '<!doctype html>');
    writeFileSync(path.join(built, 'renderer', 'assets', 'font.woff2'), 'font');
    writeFileSync(path.join(built, 'renderer', 'assets', 'tool.exe'), 'no');
    writeFileSync(path.join(built, 'secret.json'), '{}');
  });
  afterAll(() => rmSync(built, { recursive: true, force: true }));

  const ask = (address: string, method = 'GET') =>
    servePageFiles(path.join(built, 'renderer'))(new Request(address, { method }));

  it('come with their kind and the strict headers', async () => {
    const page = await ask(pageUrl);
    expect([page.status, page.headers.get('content-type'), await page.text()]).toEqual([
      200,
      'text/html; charset=utf-8',
      '<!doctype html>',
    ]);
    const policy = page.headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'none'; script-src 'self'; style-src 'self';");
    expect(policy).toContain("connect-src 'self';");
    expect(policy).not.toContain('unsafe');
    expect((await ask(`${pageOrigin}/assets/font.woff2`)).headers.get('content-type')).toBe('font/woff2');
  });

  it.each([
    ['/nothing.html', 'GET'],
    ['/assets', 'GET'],
    ['/assets/tool.exe', 'GET'],
    ['/%2e%2e/secret.json', 'GET'],
    ['/index.html', 'POST'],
  ])('are nothing else: %s %s', async (way, method) => {
    const answer = await ask(`${pageOrigin}${way}`, method);
    expect(answer.status).toBe(404);
    expect(answer.headers.get('content-security-policy')).toContain("default-src 'none'");
  });
});
