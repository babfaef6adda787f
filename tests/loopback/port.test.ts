import { describe, expect, it } from 'vitest';
import { listenOnFreePort, PortTaken } from '../../electron/loopback/port.ts';

/** A computer on which these ports are taken; notes what was tried. */
function computer(taken: readonly number[], code = 'EADDRINUSE') {
  const tried: number[] = [];
  return {
    tried,
    async listen(port: number) {
      tried.push(port);
      if (taken.includes(port)) throw Object.assign(new Error('taken'), { code });
      return port === 0 ? 50_123 : port;
    },
  };
}

describe('the port', () => {
  it('is the preferred one', async () => {
    expect(await listenOnFreePort(computer([]).listen, 47187, null)).toBe(47187);
  });

  it('is the next one that is free', async () => {
    const { listen, tried } = computer([47187, 47188]);
    expect(await listenOnFreePort(listen, 47187, null)).toBe(47189);
    expect(tried).toEqual([47187, 47188, 47189]);
  });

  it('is any one when ten are taken, also when the system keeps them for itself', async () => {
    const ten = Array.from({ length: 10 }, (_, i) => 47187 + i);
    expect(await listenOnFreePort(computer(ten, 'EACCES').listen, 47187, null)).toBe(50_123);
  });

  it('is the one that was asked for, or none', async () => {
    expect(await listenOnFreePort(computer([47187]).listen, 47187, 8080)).toBe(8080);
    const { listen, tried } = computer([8080]);
    await expect(listenOnFreePort(listen, 47187, 8080)).rejects.toThrow(PortTaken);
    expect(tried).toEqual([8080]);
  });

  it('hides no other fault', async () => {
    const { listen } = computer([47187], 'EPERM');
    await expect(listenOnFreePort(listen, 47187, null)).rejects.toThrow('taken');
  });
});
