import { expect, it, vi } from 'vitest';
import { Refused } from '../../core/bridge/refused.ts';
import { buildPart } from '../../electron/builds.ts';

vi.mock('vite', () => {
  throw new Error("Cannot find package 'vite'");
});

it('says in one line what to install where the tools that build it are missing', async () => {
  const refused = await buildPart('nowhere', 'page').catch((fault: unknown) => fault);
  expect(refused).toBeInstanceOf(Refused);
  expect(refused instanceof Refused && refused.message).toMatch(/not built yet.*npm ci without --omit=dev/);
});
