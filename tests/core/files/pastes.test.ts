import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { encodingOf } from '../../../core/files/encoding.ts';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import { refusalLine } from '../../../core/result.ts';

/*
 * Pastes and files in the forms in which people have them, written together with what a careful person reads from each
 * before anybody looked at how the importer works. Invented numbers.
 */
type Meaning = Readonly<{
  why: string;
  levels?: readonly (readonly [number, number])[];
  /** The kind of each of those levels, where the text says it. */
  kinds?: readonly string[];
  /** How many rows are named as no reading. */
  left?: number;
  /** A person can read it, and a program may well ask first; read otherwise it must never be. */
  orRefused?: boolean;
  /** What the refusal must speak of. */
  refused?: string;
}>;

const folder = new URL('../../data/pastes/', import.meta.url);
const names = readdirSync(folder).filter((name) => !name.endsWith('.json'));
const round = (value: number): number => Math.round(value * 1e3) / 1e3;

it('has pastes to read', () => expect(names.length).toBeGreaterThan(700));

it.each(names)('%s is read as a careful person reads it', (name) => {
  const bytes = readFileSync(new URL(name, folder));
  const text = new TextDecoder(encodingOf(bytes), { ignoreBOM: true }).decode(bytes);
  const means: Meaning = JSON.parse(readFileSync(new URL(name.replace(/\.[^.]+$/, '.json'), folder), 'utf8'));
  const read = readSweepCsv(text, name);
  if (means.refused !== undefined) {
    expect(read.ok, means.why).toBe(false);
    expect(read.ok ? '' : refusalLine(read), means.why).toMatch(new RegExp(means.refused, 'i'));
    return;
  }
  if (!read.ok && means.orRefused === true) return;
  const levels = read.ok
    ? read.value.rows.flatMap(({ frequencyMhz, levelDbmv, unlocked = false }) =>
        frequencyMhz === null || levelDbmv === null || unlocked ? [] : [[frequencyMhz, round(levelDbmv)]],
      )
    : refusalLine(read);
  expect(levels, means.why).toEqual(means.levels?.map(([mhz, level]) => [mhz, round(level)]));
  if (means.left !== undefined)
    expect(read.ok && read.value.rows.length - levels.length, means.why).toBe(means.left);
  if (means.kinds !== undefined)
    expect(read.ok && read.value.rows.flatMap(({ kind = [] }) => kind), means.why).toEqual(means.kinds);
});
