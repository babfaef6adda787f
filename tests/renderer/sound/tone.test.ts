import { expect, it, vi } from 'vitest';
import { pitchHz } from '../../../renderer/sound/pitch.ts';
import { createTone } from '../../../renderer/sound/tone.ts';

it('is silent inside the tolerance, and where there is no distance to tell', () => {
  expect(pitchHz(0.2, 0.2)).toBeNull();
  expect(pitchHz(-0.1, 0.2)).toBeNull();
  expect(pitchHz(null, 0.2)).toBeNull();
});

it('stands high above the target and low under it, and comes nearer as the level does', () => {
  const above = [3, 1, 0.3].map((offDb) => pitchHz(offDb, 0.2) ?? 0);
  const below = [-3, -1, -0.3].map((offDb) => pitchHz(offDb, 0.2) ?? 0);
  expect(above).toEqual([...above].sort((a, b) => b - a));
  expect(below).toEqual([...below].sort((a, b) => a - b));
  expect(Math.min(...above)).toBeGreaterThan(Math.max(...below));
  expect(pitchHz(3, 0.2)).toBeCloseTo(1200, 9);
  expect(pitchHz(40, 0.2)).toBe(pitchHz(6, 0.2));
});

const param = () => ({ value: 1, setTargetAtTime: vi.fn() });

/** As much of a sound card as the tone touches. */
function card() {
  const gain = param();
  const frequency = param();
  const made = vi.fn();
  const context = {
    currentTime: 0,
    destination: {},
    resume: vi.fn(async () => {}),
    close: vi.fn(async () => {}),
    createOscillator: () => ({ type: '', frequency, connect: (next: unknown) => next, start: vi.fn() }),
    createGain: () => ({ gain, connect: () => {} }),
  };
  return { gain, frequency, made, context };
}

it('makes nothing before it is unlocked by a press, and starts silent', () => {
  const { gain, made, context } = card();
  const tone = createTone(() => {
    made();
    return context as unknown as AudioContext;
  });
  tone.play(600);
  expect(made).not.toHaveBeenCalled();
  tone.unlock();
  expect(made).toHaveBeenCalledTimes(1);
  expect(gain.value).toBe(0);
  tone.play(600);
  expect(gain.setTargetAtTime.mock.calls.at(-1)?.[0]).toBeGreaterThan(0);
  tone.play(null);
  expect(gain.setTargetAtTime.mock.calls.at(-1)?.[0]).toBe(0);
});

it('stays silent, and nothing breaks, on a machine without sound', () => {
  const tone = createTone(() => {
    throw new Error('no sound device');
  });
  expect(() => {
    tone.unlock();
    tone.play(600);
    tone.close();
  }).not.toThrow();
});
