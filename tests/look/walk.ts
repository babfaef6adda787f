import type { Page } from 'playwright-core';

/** One screen or dialog of the workbench, and how a person gets there from the one before. */
export type Stop = Readonly<{
  name: string;
  arrive: (page: Page) => Promise<void>;
  /** What its picture in the README shows, in a line; a stop without it has no picture. */
  shows?: string;
  /** True where the README shows it at night as well. */
  night?: true;
}>;

const wait = { timeout: 30_000 };
const press = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).first().click();
const choose = (page: Page, name: string) => page.getByRole('radio', { name, exact: true }).click();
const dialogIsOpen = (page: Page) => page.getByRole('dialog').waitFor(wait);
async function close(page: Page): Promise<void> {
  await page.keyboard.press('Escape');
  await page.getByRole('dialog').waitFor({ state: 'detached', ...wait });
}
/** Opens by a button what the stop before left closed. */
const dialogOf = (name: string, button: string | RegExp, closeFirst = true): Stop => ({
  name,
  arrive: async (page) => {
    if (closeFirst) await close(page);
    await press(page, button);
    await dialogIsOpen(page);
  },
});
/** With a picture in the README, and the line under it. */
const pictured = (shows: string, stop: Stop): Stop => ({ ...stop, shows });
const place = (name: string, tab: string, shown: (page: Page) => Promise<void>): Stop => ({
  name,
  arrive: async (page) => {
    await choose(page, tab);
    await shown(page);
  },
});
const heading = (page: Page, name: string | RegExp) =>
  page.getByRole('heading', { level: 1, name }).waitFor(wait);

/** As somebody copies it from a page: what is received, one slot without a signal, what is sent, and a word. */
const pasted = [
  'Channel\tLock status\tFrequency\tPower\tMER',
  ...Array.from(
    { length: 24 },
    (_, i) =>
      `${i + 1}\tLocked\t${471 + 6 * i + (i > 15 ? 60 : 0)} MHz\t${(3 - i / 20).toFixed(1)} dBmV\t39 dB`,
  ),
  '25\tNot locked\t0 MHz\t0.0 dBmV\t0 dB',
  '',
  'Upstream',
  'Channel\tFrequency\tPower',
  '1\t35.6 MHz\t44.0 dBmV',
  '',
  'read at the harbour office',
].join('\n');

async function beginVisit(page: Page): Promise<void> {
  await page.getByLabel(/^Ambient/).fill('31');
  await press(page, 'Read them, begin the visit');
}

/** Every screen of the workbench in one walk over the demo, each in the state that shows the most of it. */
export const stops: readonly Stop[] = [
  {
    name: 'first start',
    shows: 'The first start: try it, open your own, or take in another laptop',
    arrive: (page) => heading(page, /^Read the station/),
  },
  {
    name: 'a new station',
    arrive: async (page) => {
      await press(page, 'New station');
      await heading(page, 'A new station');
      // A design that is half said: what is missing stands below.
      await page.getByLabel('Low end').fill('54');
      await page.getByLabel('level there').first().fill('36');
    },
  },
  {
    name: 'first start again',
    arrive: async (page) => {
      await press(page, 'Back to the stations');
      await press(page, 'Discard');
      await heading(page, /^Read the station/);
    },
  },
  {
    name: 'stations',
    shows: 'How every station stands, and how far its worst channel is off',
    arrive: async (page) => {
      await press(page, 'Try it on the invented network');
      await heading(page, /stations$/);
    },
  },
  {
    name: 'other laptops',
    shows: 'Records of other laptops, taken in and given',
    arrive: async (page) => {
      await press(page, 'Other laptops');
      await heading(page, /^Nothing has come/);
      await choose(page, 'One station');
    },
  },
  {
    name: 'stations again',
    arrive: async (page) => {
      await press(page, 'Back to the stations');
      await heading(page, /stations$/);
    },
  },
  dialogOf('search, by a key', /^Search everything/, false),
  {
    name: 'search, found',
    shows: 'One search over stations, visits, screens and words',
    arrive: async (page) => {
      await page.keyboard.type('mill');
      await page.getByText('found.').waitFor(wait);
    },
  },
  pictured(
    'Each word of the trade in two sentences, with formula and source',
    dialogOf('help, words', /^Help/),
  ),
  ...['Keys', 'First steps'].map((face) => ({
    name: `help, ${face}`,
    arrive: async (page: Page) => choose(page, face),
  })),
  dialogOf('units', /^Units:/),
  pictured('Units, text size, and what the meter is good to', dialogOf('settings', /^Settings/)),
  dialogOf('truck', /^Truck/),
  {
    name: 'truck, as it is counted',
    shows: 'The truck: once it is counted, nothing else is proposed',
    arrive: async (page) => {
      await press(page, 'Count the truck');
      for (const part of ['pad 3', 'pad 5', 'pad 5', 'pad 10'])
        await page.getByRole('button', { name: `one ${part} more`, exact: true }).click();
    },
  },
  {
    name: 'truck, not counted after all',
    arrive: async (page) => {
      await press(page, 'Keep no count');
      await page.getByRole('button', { name: 'Count the truck' }).waitFor(wait);
    },
  },
  pictured('Which meter', dialogOf('meter, which', /^Meter:/)),
  ...['Link and calibration', 'Profiles'].map((face) => ({
    name: `meter, ${face}`,
    arrive: async (page: Page) => choose(page, face),
  })),
  {
    name: 'station before its visit',
    shows: 'Cautions, once a visit',
    arrive: async (page) => {
      await close(page);
      await page.getByText('07 Mill Lane').click();
      await page.getByRole('button', { name: 'Read them, begin the visit' }).waitFor(wait);
    },
  },
  {
    name: 'the design of a station',
    shows: 'A station is drawn, not filled in: press a block and say what it is',
    arrive: async (page) => {
      await press(page, 'Design');
      await heading(page, /^The design of/);
      await press(page, /^input equalizer/);
    },
  },
  {
    name: 'ready to read',
    arrive: async (page) => {
      await press(page, /^Back to/);
      await beginVisit(page);
      await page.getByRole('button', { name: 'Read forward output' }).waitFor(wait);
    },
  },
  {
    name: 'a table read elsewhere',
    shows: 'A table from anywhere, with what was understood of it before it is taken',
    arrive: async (page) => {
      await press(page, 'A pasted table');
      await dialogIsOpen(page);
      await page.getByLabel(/^Paste a table/).fill(pasted);
      await page.getByText(/^24.readings/).waitFor(wait);
    },
  },
  {
    name: 'a table that asks',
    arrive: async (page) => {
      await page.getByLabel(/^Paste a table/).fill((pasted.split('\n\n')[0] ?? '').replaceAll(' dBmV', ''));
      await page.getByText('What are its levels in?').waitFor(wait);
    },
  },
  {
    name: 'a table that would be gone',
    arrive: async (page) => {
      await page.keyboard.press('Escape');
      await page.getByRole('alertdialog', { name: 'Keep the changes?' }).waitFor(wait);
    },
  },
  {
    name: 'while it reads',
    shows: 'Each level as it comes, on disk before it is drawn',
    arrive: async (page) => {
      await press(page, 'Discard');
      await page.getByRole('dialog').waitFor({ state: 'detached', ...wait });
      await press(page, 'Read forward output');
      await page
        .getByText(/of 136/)
        .first()
        .waitFor(wait);
    },
  },
  {
    name: 'finding',
    shows: 'The finding in words, and what to change',
    night: true,
    arrive: (page) => page.getByRole('button', { name: 'Parts fitted, read again' }).waitFor(wait),
  },
  pictured(
    'Any underlined number says how it came about',
    dialogOf('how a number came about', /How it was computed/, false),
  ),
  pictured('What is in a position', dialogOf('what is in a position', /Change what is in\.$/)),
  pictured('What was nearly as good', dialogOf('other choices', /^\d+ others?$/)),
  pictured('What a visit can become on paper', dialogOf('forms of the report', /^Other forms of the report/)),
  pictured('What each channel carries', dialogOf('line-up', 'Line-up')),
  { name: 'trims', arrive: (page) => choose(page, 'Trims') },
  pictured(
    'The end of a visit, with a note for the next one',
    dialogOf('end of the visit', /A visit is open/),
  ),
  {
    name: 'finding as a table',
    arrive: async (page) => {
      await close(page);
      await choose(page, 'Table');
      await page.getByRole('table').first().waitFor(wait);
    },
  },
  {
    name: 'proved, as left',
    shows: 'Read again: the new sweep lies on the prediction',
    arrive: async (page) => {
      await choose(page, 'Chart');
      await press(page, 'Parts fitted, read again');
      await page.getByText(/^As predicted/).waitFor(wait);
    },
  },
  {
    name: 'sweep, its menu',
    arrive: async (page) => {
      await press(page, /^Sweep: /);
      await page.getByRole('menuitem', { name: 'Correct, void' }).waitFor(wait);
    },
  },
  {
    name: 'sweep, put right',
    shows: 'A sweep is put right or declared void, and stays',
    arrive: async (page) => {
      await page.getByRole('menuitem', { name: 'Correct, void' }).click();
      await dialogIsOpen(page);
    },
  },
  {
    name: 'peaking',
    arrive: async (page) => {
      await close(page);
      await choose(page, 'Peaking');
      await page.getByRole('button', { name: 'Start' }).waitFor(wait);
    },
  },
  {
    name: 'peaking, live',
    shows: 'One level, readable from two metres',
    night: true,
    arrive: async (page) => {
      await press(page, 'Start');
      await page.getByText(/readings a second/).waitFor(wait);
    },
  },
  {
    name: 'gain control without a visit',
    arrive: async (page) => {
      await press(page, 'Back to the stations');
      await page.getByText('03 Ropewalk').click();
      await choose(page, 'Gain control');
      await heading(page, 'Before you open it');
    },
  },
  pictured(
    'The year: does the gain control reach?',
    place('season', 'Season', (page) => page.locator('.season__table').waitFor(wait)),
  ),
  pictured(
    'The cable in front, and what noise and distortion come to',
    place('span and noise', 'Span and noise', (page) => page.locator('.span-main').waitFor(wait)),
  ),
  {
    name: 'season, watch',
    arrive: async (page) => {
      await choose(page, 'Season');
      await choose(page, 'Watch');
    },
  },
  pictured(
    'A gain control is set up step by step',
    place('set-up, its plan', 'Gain control', async (page) => {
      await beginVisit(page);
      await page.getByRole('button', { name: 'Begin the set-up' }).waitFor(wait);
    }),
  ),
  {
    name: 'set-up, a sweep',
    arrive: async (page) => {
      await press(page, 'Begin the set-up');
      await heading(page, 'Sweep as found');
    },
  },
  {
    name: 'set-up, a level',
    shows: 'Each step beside its live level',
    arrive: async (page) => {
      await press(page, 'Sweep forward output');
      await heading(page, 'Control to its low end');
      await press(page, /^Probe on the /);
      await page.getByText(/readings a second/).waitFor(wait);
    },
  },
  dialogOf('set-up, skip', 'Skip', false),
  {
    name: 'all records',
    shows: 'Every station in one table, with its trend',
    arrive: async (page) => {
      await close(page);
      await press(page, 'Back to the stations');
      await press(page, 'All records');
      await page.locator('.records__main').waitFor(wait);
    },
  },
  {
    name: 'history of a station',
    shows: 'One station over the years',
    arrive: async (page) => {
      await page.getByText('11 Customs Quay').first().click();
      await page.locator('.control__dot').first().waitFor(wait);
    },
  },
  {
    name: 'history, its figure as a table',
    arrive: async (page) => {
      await choose(page, 'Flatness');
      await page.getByRole('radio', { name: 'Table' }).last().click();
      await page.locator('.numbers--named').waitFor(wait);
    },
  },
  {
    name: 'two sweeps compared',
    arrive: async (page) => {
      await page.locator('.tick-box').first().click();
      await page.locator('.tick-box').nth(4).click();
      await press(page, 'Compare the two');
      await page.locator('.history__part--compared').waitFor(wait);
    },
  },
  {
    name: 'visits of a period',
    shows: 'What was found and left in a period',
    arrive: async (page) => {
      await press(page, /^Back to /);
      await press(page, 'Visits of a period');
      await press(page, 'Last 365 days');
      await page.locator('.period__table').waitFor(wait);
    },
  },
];
