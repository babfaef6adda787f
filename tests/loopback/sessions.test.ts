import { describe, expect, it } from 'vitest';
import { createSessions } from '../../electron/loopback/sessions.ts';

function sessionsAt() {
  const clock = { nowMs: 0 };
  let count = 0;
  const sessions = createSessions({
    nowMs: () => clock.nowMs,
    newSecret: () => {
      count += 1;
      return `secret-${count}`;
    },
  });
  return { sessions, clock };
}

describe('a start code', () => {
  it('is changed once for another secret', () => {
    const { sessions } = sessionsAt();
    const code = sessions.newCode(1000);
    const secret = sessions.spend(code);
    expect(secret).not.toBeNull();
    expect(secret).not.toBe(code);
    expect(sessions.isOpen(secret ?? '')).toBe(true);
    expect(sessions.isOpen(code)).toBe(false);
    expect(sessions.spend(code)).toBeNull();
  });

  it('ends when its time is over', () => {
    const { sessions, clock } = sessionsAt();
    const code = sessions.newCode(1000);
    clock.nowMs = 1000;
    expect(sessions.spend(code)).toBeNull();
    clock.nowMs = 0;
    expect(sessions.spend(code)).toBeNull();
  });

  it('survives a wrong guess, and ends the code before it', () => {
    const { sessions, clock } = sessionsAt();
    const first = sessions.newCode(1000);
    const second = sessions.newCode(1000);
    clock.nowMs = 999;
    expect(sessions.spend('guess')).toBeNull();
    expect(sessions.spend(first)).toBeNull();
    expect(sessions.spend(second)).not.toBeNull();
  });

  it('leaves the sessions before it open', () => {
    const { sessions } = sessionsAt();
    const one = sessions.spend(sessions.newCode(1000)) ?? '';
    const two = sessions.spend(sessions.newCode(1000)) ?? '';
    expect([
      sessions.isOpen(one),
      sessions.isOpen(two),
      sessions.isOpen(undefined),
      sessions.isOpen(''),
    ]).toEqual([true, true, false, false]);
  });
});
