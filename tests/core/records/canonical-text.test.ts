import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalText, type Plain } from '../../../core/records/canonical-text.ts';

describe('the canonical text of a record', () => {
  // RFC 8785, section 3.2.3: the sorting example, with the order that it gives.
  it('has its keys in the order that RFC 8785 shows', () => {
    const text = canonicalText({
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    });
    expect([...text.matchAll(/:"([^"]+)"/g)].map((match) => match[1])).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  // RFC 8785, section 3.2.2: the string of its sample, and its bytes as section 3.2.4 lists them.
  it('escapes what RFC 8785 escapes, byte for byte', () => {
    const text = canonicalText({
      s: JSON.parse('"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/"'),
    });
    const bytes = Buffer.from(text.slice('{"s":'.length, -1), 'utf8').toString('hex');
    expect(bytes).toBe('22e282ac245c75303030665c6e4127425c225c5c5c5c5c222f22');
  });

  it('is the same for the same record, however it was put together, and reads back as it', () => {
    const leaf = fc.oneof(fc.maxSafeInteger(), fc.string({ unit: 'grapheme' }), fc.constant(null));
    const { tree } = fc.letrec<{ tree: Plain }>((tie) => ({
      tree: fc.oneof(
        { depthSize: 'small' },
        leaf.map((value) => (value === 0 ? 0 : value) as Plain),
        fc.array(tie('tree'), { maxLength: 5 }),
        fc.dictionary(fc.string({ unit: 'grapheme' }), tie('tree'), { maxKeys: 5, noNullPrototype: true }),
      ),
    }));
    const turned = (value: Plain): Plain => {
      if (value === null || typeof value !== 'object') return value;
      if (Array.isArray(value)) return value.map(turned);
      const entries = Object.entries(value as Record<string, Plain>);
      return Object.fromEntries(entries.toReversed().map(([key, part]) => [key, turned(part)]));
    };
    fc.assert(
      fc.property(tree, (value) => {
        const text = canonicalText({ value });
        expect(canonicalText(turned({ value }) as Record<string, Plain>)).toBe(text);
        expect(JSON.parse(text)).toEqual({ value });
      }),
    );
  });

  it.each([
    ['a fraction', 0.5],
    ['minus zero', -0],
    ['NaN', Number.NaN],
    ['infinity', Number.POSITIVE_INFINITY],
    ['more than doubles count exactly', 2 ** 53],
    ['half a character', '\ud83d'],
    ['the other half', 'a\ude00b'],
  ])('refuses %s, and says where', (_what, value) => {
    expect(() => canonicalText({ readings: { level: value } })).toThrow(/^record\.readings\.level: /);
  });

  it('refuses what JSON would leave out without a word', () => {
    for (const value of [true, undefined, () => 1, Symbol('x')]) {
      const record = { list: [value] as never };
      if (value === undefined) expect(canonicalText(record)).toBe('{"list":[null]}');
      else expect(() => canonicalText(record)).toThrow(/can't hold/);
    }
  });
});
