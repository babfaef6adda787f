import { expect, it } from 'vitest';
import { z } from 'zod';
import { AnswerPart } from '../../../core/files/answer-grammar.ts';
import { MeterProfile, readMeterProfile } from '../../../core/files/meter-profile.ts';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import { createLineLink } from '../../../electron/backend/meters/lines-over-bytes.ts';
import { scriptedWire } from '../../support/scripted-wire.ts';
import { textOf } from '../../support/source-files.ts';

/** What a shop is told that writes a profile of its own. */
const path = 'docs/meter-profile.md';
const documented = textOf(path);
const rowsOf = (chapter: string) => {
  const text = new RegExp(`\n## ${chapter}\n([\\s\\S]*?)(\n## |$)`).exec(documented)?.[1] ?? '';
  return new Map(
    [...text.matchAll(/^\| `([^`]+)` \| (?:`([^`]*)`)? ?\| ?(.*?) ?\|$/gm)].map((row) => [row[1], row[2]]),
  );
};

type Schema = Readonly<{
  properties?: Record<string, Schema> | undefined;
  items?: Schema | undefined;
  anyOf?: Schema[] | undefined;
  oneOf?: Schema[] | undefined;
  default?: unknown;
  const?: unknown;
}>;
const Schema: z.ZodType<Schema> = z.lazy(() =>
  z.looseObject({
    properties: z.record(z.string(), Schema).optional(),
    items: Schema.optional(),
    anyOf: z.array(Schema).optional(),
    oneOf: z.array(Schema).optional(),
  }),
);
const schemaOf = (of: z.ZodType): Schema => Schema.parse(z.toJSONSchema(of, { io: 'input' }));

/** Every key below a schema with its default as text; a question's own keys stand in a table of their own. */
function keysOf(schema: Schema, at = ''): [string, string | undefined][] {
  const { properties, items, anyOf = [], oneOf = [] } = schema;
  const below = [...anyOf, ...oneOf].flatMap((one) => keysOf(one, at));
  if (items !== undefined) below.push(...keysOf(items, `${at}[]`));
  if (properties === undefined || ('answers' in properties && at !== '')) return below;
  for (const [key, one] of Object.entries(properties)) {
    const place = at === '' ? key : `${at}.${key}`;
    const usual = one.default === undefined ? undefined : JSON.stringify(one.default);
    below.push([place, usual === '{}' ? undefined : usual], ...keysOf(one, place));
  }
  return below;
}

it('names every key of a profile with its default, and no other', () => {
  const rows = rowsOf('Keys');
  expect(rows.size).toBeGreaterThan(50);
  expect([...rows].sort()).toEqual([...new Map(keysOf(schemaOf(MeterProfile)))].sort());
});

it('names the keys of a question', () => {
  const question = schemaOf(MeterProfile.shape.identify);
  expect([...rowsOf('A question').keys()].sort()).toEqual(Object.keys(question.properties ?? {}).sort());
});

it('names every part of an answer with its keys and their defaults', () => {
  const chapter = documented.slice(documented.indexOf('\n## A part of an answer'));
  const kinds = schemaOf(AnswerPart).oneOf ?? schemaOf(AnswerPart).anyOf ?? [];
  const wanted = kinds.map(({ properties = {} }) => {
    const { is, ...others } = properties;
    const words = Object.entries(others).map(([key, one]) =>
      one.default === undefined ? `\`${key}\`` : `\`${key}\` (\`${JSON.stringify(one.default)}\`)`,
    );
    return `| \`${String(is?.const)}\` | ${words.join(', ')}${words.length === 0 ? '' : ' '}| `;
  });
  expect(wanted).toHaveLength(8);
  for (const row of wanted) expect(chapter).toContain(row);
});

const example = /```json\n([\s\S]*?)```/.exec(documented)?.[1] ?? '';
const profile = readMeterProfile(example, path);

it('shows a whole profile that is one', () => {
  expect(profile).toMatchObject({ ok: true, value: { name: 'harbour-two-lines' } });
});

it('shows one by which a meter is read as it says: tuned, converted, without a level, overloaded', async () => {
  if (!profile.ok) throw new Error(profile.help);
  const said: string[] = [];
  let tuned = '';
  const wire = scriptedWire((line, { send }) => {
    said.push(line);
    if (line === 'WHO') send('I AM Two Lines NO H-7\r');
    if (line.startsWith('F ')) tuned = line.slice(2);
    if (line === 'L' && tuned === '999.000') send('E7 END\r');
    else if (line === 'L') send(`${tuned} ${tuned === '423.000' ? '---' : '78.5'} END\r`);
  });
  const shop = createMeterShop({
    now: () => new Date(),
    profiles: [{ ...profile.value, settleMs: 0 }],
    recovery: null,
    openSerial: async (place, { lines }) => createLineLink(place, lines, wire.start),
  });
  const never = new AbortController().signal;
  const meter = await shop.connect({ kind: 'serial', path: 'COM3', profile: profile.value.name }, never);
  expect(meter.identity).toMatchObject({ model: 'Two Lines', serialNumber: 'H-7' });
  const levels: (number | null)[] = [];
  const reading = (async () => {
    for await (const { meterDbmv } of meter.readLevels([57, 423, 999], never)) levels.push(meterDbmv);
  })();
  await expect(reading).rejects.toMatchObject({ help: expect.stringContaining('put a pad in front of it') });
  // 78.5 dBuV are 18.5 dBmV: 0 dBmV is 60 dBuV, whatever the impedance.
  expect(levels).toEqual([18.5, null]);
  expect(said.slice(0, 3)).toEqual(['WHO', 'F 57.000', 'L']);
  await meter.close();
});
