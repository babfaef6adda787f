import { randomBytes } from 'node:crypto';
import cookie from '@fastify/cookie';
import statics from '@fastify/static';
import websocket from '@fastify/websocket';
import { type FastifyInstance, fastify } from 'fastify';
import { z } from 'zod';
import { pageHeaders } from '../hosts/page-headers.ts';
import { doorPage, doorScript, doorStyle } from './door.ts';
import { guardRequest } from './guard.ts';
import { listenOnFreePort } from './port.ts';
import { createSessions } from './sessions.ts';
import { maxFrameBytes, type SocketHost, serveSocket } from './socket.ts';

/** The one place where the program listens; an old bookmark finds it there again. */
export const preferredPort = 47187;

export const firstCodeForMs = 10 * 60_000;
export const laterCodeForMs = 2 * 60_000;

export type LoopbackOptions = SocketHost &
  Readonly<{
    /** The folder of the built page. */
    pageDir: string;
    /** Null: the preferred port, else the next free one. A number: that one or none. */
    port: number | null;
  }>;

export type Loopback = Readonly<{
  port: number;
  /** An address that opens the workbench once, in one browser. */
  link(forMs: number): string;
  close(): Promise<void>;
}>;

const Code = z.strictObject({ code: z.string().min(1).max(100) });

const kindOf = { page: 'text/html', script: 'text/javascript', style: 'text/css' };

/** The built page and the bridge on 127.0.0.1, for the browsers of this computer that were given a code. */
export async function startLoopback(options: LoopbackOptions): Promise<Loopback> {
  const { pageDir, onFault } = options;
  const sessions = createSessions({
    nowMs: () => performance.now(),
    newSecret: () => randomBytes(24).toString('base64url'),
  });
  const app = fastify({ bodyLimit: 64 * 1024, logger: false, forceCloseConnections: true });
  // Known only once we listen; until then no request can come.
  let port = 0;
  const cookieName = () => `tiltwright-${port}`;

  await app.register(cookie);
  // Before the guard's hook: its own hook marks the request as a socket's, without which a refused one stays open.
  await app.register(websocket, { options: { maxPayload: maxFrameBytes } });
  app.addHook('onRequest', async (request, reply) => {
    reply.headers(pageHeaders([`ws://127.0.0.1:${port}`]));
    const changes = request.method !== 'GET' && request.method !== 'HEAD';
    const verdict = guardRequest(request.raw, port, changes || request.headers.upgrade !== undefined);
    if (verdict.allowed) return;
    onFault('guard', new Error(`${request.method} ${request.url}: ${verdict.why}`));
    await reply.code(verdict.status).type('text/plain').send(`${verdict.why}\n`);
  });
  // A form of another page can send text/plain without asking first; JSON it can't.
  app.removeContentTypeParser('text/plain');
  app.setErrorHandler(async (error: Error & { statusCode?: number }, _request, reply) => {
    const status = error.statusCode ?? 500;
    if (status >= 500) onFault('http', error);
    await reply
      .code(status)
      .type('text/plain')
      .send(`${status >= 500 ? 'failed' : error.message}\n`);
  });
  app.setNotFoundHandler((_request, reply) => reply.code(404).type('text/plain').send('not found\n'));

  app.get('/', (_request, reply) => reply.type(kindOf.page).send(doorPage));
  app.get('/door.js', (_request, reply) => reply.type(kindOf.script).send(doorScript));
  app.get('/door.css', (_request, reply) => reply.type(kindOf.style).send(doorStyle));
  app.get('/session', (request, reply) =>
    reply.send({ open: sessions.isOpen(request.cookies[cookieName()]) }),
  );
  app.post('/session', async (request, reply) => {
    const asked = Code.safeParse(request.body);
    const secret = asked.success ? sessions.spend(asked.data.code) : null;
    if (secret === null) return await reply.code(401).send();
    return await reply
      .setCookie(cookieName(), secret, { httpOnly: true, sameSite: 'strict', path: '/' })
      .code(204)
      .send();
  });
  await app.register(async (inside: FastifyInstance) => {
    inside.addHook('onRequest', async (request, reply) => {
      if (sessions.isOpen(request.cookies[cookieName()])) return;
      // A page goes to the door, which says in words what is missing; a file or a socket is just refused.
      if (request.headers.upgrade === undefined && request.url === '/workbench/') await reply.redirect('/');
      else
        await reply.code(401).type('text/plain').send('open the workbench with the link from the terminal\n');
    });
    await inside.register(statics, {
      root: pageDir,
      prefix: '/workbench/',
      dotfiles: 'deny',
      cacheControl: false,
      etag: false,
      lastModified: false,
    });
    inside.get('/socket', { websocket: true }, (socket) => serveSocket(socket, options));
  });

  port = await listenOnFreePort(
    async (at) => {
      await app.listen({ host: '127.0.0.1', port: at });
      const at127 = app.server.address();
      return typeof at127 === 'object' && at127 !== null ? at127.port : at;
    },
    preferredPort,
    options.port,
  );
  return {
    port,
    link: (forMs) => `http://127.0.0.1:${port}/#code=${sessions.newCode(forMs)}`,
    async close() {
      for (const socket of app.websocketServer.clients) socket.close(1001, 'the workbench was closed');
      await app.close();
    },
  };
}
