import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { pageHeaders } from '../hosts/page-headers.ts';

/** The window's page has a scheme of its own: file:// could read every file of this computer. */
export const pageScheme = 'tiltwright';
export const pageOrigin = `${pageScheme}://workbench`;
export const pageUrl = `${pageOrigin}/index.html`;

/** True for an address of the page itself, whatever way its origin is written. */
export function isOfPage(address: string): boolean {
  try {
    const { protocol, host } = new URL(address);
    return `${protocol}//${host}` === pageOrigin;
  } catch {
    return false;
  }
}

const kinds: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.json': 'application/json; charset=utf-8',
};

/**
 * The file that an address of our scheme means.
 * @returns  an absolute path inside the folder, or null when the address means anything else
 */
export function fileOf(address: string, folder: string): string | null {
  let asked: string;
  try {
    const url = new URL(address);
    if (`${url.protocol}//${url.host}` !== pageOrigin) return null;
    asked = decodeURIComponent(url.pathname);
  } catch {
    return null;
  }
  // Decoded once; what still looks like a way up, a drive, a device or another coding is nobody's honest request.
  if (/[\\%:\0]/.test(asked)) return null;
  const parts = asked.split('/').slice(1);
  if (parts.length === 0 || parts.some((part) => part === '' || part.startsWith('.'))) return null;
  const root = path.resolve(folder);
  const file = path.resolve(root, ...parts);
  return file.startsWith(root + path.sep) ? file : null;
}

/** Answers the window's requests from the built page's folder; whatever isn't a known kind of file there is not found. */
export function servePageFiles(folder: string): (request: Request) => Promise<Response> {
  const headers = pageHeaders();
  return async (request) => {
    const file = request.method === 'GET' ? fileOf(request.url, folder) : null;
    const kind = file === null ? undefined : kinds[path.extname(file).toLowerCase()];
    if (file === null || kind === undefined) return new Response('not found', { status: 404, headers });
    try {
      return new Response(new Uint8Array(await readFile(file)), {
        headers: { ...headers, 'content-type': kind },
      });
    } catch {
      return new Response('not found', { status: 404, headers });
    }
  };
}
