import type { z } from 'zod';
import { done, type Result, refuse } from '../result.ts';
import { schemaWords, valueAt } from './schema-words.ts';

/** What a kind of JSON file of ours is called, how it begins, and the code of a refusal that it is none. */
export type JsonFileKind<Code extends string> = Readonly<{ noun: string; format: string; code: Code }>;

/**
 * The text of a JSON file of ours to what its schema makes of it.
 * @param schema    the file's shape; units are those of its keys
 * @param kind      for the words of a refusal
 * @param text      JSON, with or without a byte order mark
 * @param fileName  named in a refusal
 * @returns  what the file says, or a refusal that names the file and the first wrong key
 * @source   contract, section 2: unknown keys are refused by name
 */
export function readJsonFile<T, Code extends string>(
  schema: z.ZodType<T>,
  { noun, format, code }: JsonFileKind<Code>,
  text: string,
  fileName: string,
): Result<T, 'not-json' | Code> {
  let raw: unknown;
  try {
    raw = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (fault) {
    const why = fault instanceof Error ? fault.message : 'not JSON';
    const help = `not a JSON file (${why}); a ${noun} starts with { "format": "${format}"`;
    return refuse('not-json', fileName, help);
  }
  const parsed = schema.safeParse(raw);
  if (parsed.success) return done(parsed.data);
  const { path, message } = plainest(parsed.error.issues[0], [], `not a ${noun}`, raw);
  return refuse(code, path.length === 0 ? fileName : `${fileName}, ${path.map(String).join('.')}`, message);
}

/** The issue inside a choice of shapes that came nearest to fitting; "invalid input" alone would help nobody. */
function plainest(
  issue: z.core.$ZodIssue | undefined,
  above: readonly PropertyKey[],
  otherwise: string,
  raw: unknown,
): Readonly<{ path: readonly PropertyKey[]; message: string }> {
  if (issue === undefined) return { path: above, message: otherwise };
  const path = [...above, ...issue.path];
  const [nearest] =
    issue.code === 'invalid_union' ? [...issue.errors].sort((a, b) => a.length - b.length) : [];
  return nearest?.[0] === undefined
    ? { path, message: schemaWords(issue, valueAt(raw, path)) }
    : plainest(nearest[0], path, otherwise, raw);
}
