import { z } from 'zod';

/** Printable characters of latin1: what a question or an answer may hold; a line end is never part of either. */
export const printable = /^[\x20-\x7e\xa0-\xff]*$/;
const text = z.string().min(1).max(60).regex(printable, 'holds a control character');
const name = z.string().regex(/^[a-z][A-Za-z0-9]{0,29}$/, 'a name is letters and digits, as in errorCode');

/**
 * One part of an answer. Each takes as much as it can from where the one before ended, and nothing is tried twice, so
 * that the time for a line grows with its length alone.
 */
export const AnswerPart = z.discriminatedUnion('is', [
  /** Exactly this. */
  z.strictObject({ is: z.literal('text'), text }),
  /** This, or nothing. */
  z.strictObject({ is: z.literal('maybe'), text }),
  /** `integer`: sign and digits. `decimal`: a point as well. `any`: also an exponent (NR1, NR2, NR3 of IEEE 488.2). */
  z.strictObject({
    is: z.literal('number'),
    name,
    kind: z.enum(['integer', 'decimal', 'any']),
    /** Words that the meter says in place of the number when it has none. */
    none: z.array(text).max(8).default([]),
  }),
  /** Free text, up to the text that follows it or the end of the line; a character of `without` ends it as well. */
  z.strictObject({
    is: z.literal('words'),
    name,
    least: z.number().int().min(0).max(200).default(0),
    most: z.number().int().min(1).max(200).default(120),
    without: z.string().max(20).regex(printable).default(''),
  }),
  /** Text between double quotes; a quote inside is doubled. */
  z.strictObject({ is: z.literal('quoted'), name }),
  /** One of these words, capitals or not. */
  z.strictObject({ is: z.literal('one-of'), name, choices: z.array(text).min(1).max(20) }),
  /** A day as YYYY-MM-DD. */
  z.strictObject({ is: z.literal('date'), name }),
  /** Two hexadecimal digits: the exclusive or of all characters in front of it. */
  z.strictObject({ is: z.literal('checksum') }),
]);
export type AnswerPart = z.infer<typeof AnswerPart>;

const goesOnWithANumber = /^[0-9.eE+-]/;

/** Why a part can't stand behind the one before it: where that one ends would not be certain. */
function unsure(before: AnswerPart | undefined, part: AnswerPart | undefined): string | null {
  if (before?.is === 'words' && part !== undefined && part.is !== 'text')
    return 'behind words comes a text, or the end: where they end would not be certain';
  if (before?.is !== 'number' || part === undefined) return null;
  if (part.is === 'number' || part.is === 'words' || part.is === 'date' || part.is === 'checksum')
    return 'behind a number comes a text, a choice or the end: where it ends would not be certain';
  const starts =
    part.is === 'text' || part.is === 'maybe' ? [part.text] : part.is === 'one-of' ? part.choices : [];
  return starts.some((start) => goesOnWithANumber.test(start))
    ? 'begins like a number that goes on; where the number ends would not be certain'
    : null;
}

/** One whole line, from its first character to its last. */
export const AnswerLine = z
  .array(AnswerPart)
  .min(1)
  .max(40)
  .superRefine((parts, issues) => {
    const names = new Set<string>();
    parts.forEach((part, i) => {
      const why = unsure(parts[i - 1], part);
      if (why !== null) issues.addIssue({ code: 'custom', path: [i], message: why });
      if (!('name' in part)) return;
      if (names.has(part.name))
        issues.addIssue({ code: 'custom', path: [i, 'name'], message: `"${part.name}" is named twice` });
      names.add(part.name);
    });
  });
export type AnswerLine = z.infer<typeof AnswerLine>;
