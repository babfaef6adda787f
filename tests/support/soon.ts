import { expect } from 'vitest';

/** Waits until something is so, at most two seconds; then it is a failure. */
export async function soon(isSo: () => boolean): Promise<void> {
  for (let i = 0; i < 400 && !isSo(); i += 1) await new Promise((resolve) => setTimeout(resolve, 5));
  expect(isSo()).toBe(true);
}
