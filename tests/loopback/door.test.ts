import { createContext, runInContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { doorPage, doorScript } from '../../electron/loopback/door.ts';

type Asked = { address: string; body: string | undefined };

/** The door's script in a page that isn't there: what it asked, where it went, what it showed. */
async function goThrough(hash: string, open: boolean) {
  const asked: Asked[] = [];
  const went: string[] = [];
  const address: string[] = [];
  const words = { hidden: true };
  const context = createContext({
    location: { hash, replace: (to: string) => went.push(to) },
    history: { replaceState: (_state: null, _title: string, to: string) => address.push(to) },
    document: { getElementById: (id: string) => (id === 'closed' ? words : null) },
    async fetch(to: string, options: { body?: string } = {}) {
      asked.push({ address: to, body: options.body });
      return { json: async () => ({ open }) };
    },
  });
  runInContext(doorScript, context);
  await new Promise((resolve) => setTimeout(resolve, 0));
  return { asked, went, address, shown: !words.hidden };
}

describe('the door', () => {
  it('takes the code out of the address, changes it, and goes in', async () => {
    const { asked, went, address, shown } = await goThrough('#code=abc_-9', true);
    expect(asked).toEqual([
      { address: '/session', body: '{"code":"abc_-9"}' },
      { address: '/session', body: undefined },
    ]);
    expect(went).toEqual(['/workbench/']);
    expect(address).toEqual(['/']);
    expect(shown).toBe(false);
  });

  it('lets a browser in that was here before, without a code', async () => {
    const { asked, went } = await goThrough('', true);
    expect(asked.length).toBe(1);
    expect(went).toEqual(['/workbench/']);
  });

  it.each(['', '#code=', '#code=worn-out', '#code=<b>'])(
    'says in words what is missing: %j',
    async (hash) => {
      const { went, shown } = await goThrough(hash, false);
      expect(went).toEqual([]);
      expect(shown).toBe(true);
    },
  );

  it('has no inline script or style, which its own policy would refuse', () => {
    expect(doorPage).not.toMatch(/<script(?![^>]*src=)|<style|style=|\son\w+=/);
  });
});
