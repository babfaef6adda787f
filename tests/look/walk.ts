import type { Page } from 'playwright-core';

/** One screen or dialog of the workbench, and how a person gets there from the one before. */
export type Stop = Readonly<{ name: string; arrive: (page: Page) => Promise<void> }>;

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
const place = (name: string, tab: string, shown: (page: Page) => Promise<void>): Stop => ({
  name,
  arrive: async (page) => {
    await choose(page, tab);
    await shown(page);
  },
});
const heading = (page: Page, name: string | RegExp) =>
  page.getByRole('heading', { level: 1, name }).waitFor(wait);

async function beginVisit(page: Page): Promise<void> {
  await page.getByLabel(/^Ambient/).fill('31');
  await press(page, 'Read them, begin the visit');
}

/** Every screen of the workbench in one walk over the demo, each in the state that shows the most of it. */
export const stops: readonly Stop[] = [
  { name: 'first start', arrive: (page) => heading(page, /^Read the station/) },
  {
    name: 'stations',
    arrive: async (page) => {
      await press(page, 'Try it on the invented network');
      await heading(page, /stations$/);
    },
  },
  {
    name: 'other laptops',
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
    arrive: async (page) => {
      await page.keyboard.type('mill');
      await page.getByText('found.').waitFor(wait);
    },
  },
  dialogOf('help, words', /^Help/),
  ...['Keys', 'First steps'].map((face) => ({
    name: `help, ${face}`,
    arrive: async (page: Page) => choose(page, face),
  })),
  dialogOf('units', /^Units:/),
  dialogOf('settings', /^Settings/),
  dialogOf('truck', /^Truck/),
  dialogOf('meter, which', /^Meter:/),
  ...['Link and calibration', 'Profiles'].map((face) => ({
    name: `meter, ${face}`,
    arrive: async (page: Page) => choose(page, face),
  })),
  {
    name: 'station before its visit',
    arrive: async (page) => {
      await close(page);
      await page.getByText('07 Mill Lane').click();
      await page.getByRole('button', { name: 'Read them, begin the visit' }).waitFor(wait);
    },
  },
  {
    name: 'ready to read',
    arrive: async (page) => {
      await beginVisit(page);
      await page.getByRole('button', { name: 'Read forward output' }).waitFor(wait);
    },
  },
  {
    name: 'while it reads',
    arrive: async (page) => {
      await press(page, 'Read forward output');
      await page
        .getByText(/of 136/)
        .first()
        .waitFor(wait);
    },
  },
  {
    name: 'finding',
    arrive: (page) => page.getByRole('button', { name: 'Parts fitted, read again' }).waitFor(wait),
  },
  dialogOf('how a number came about', /How it was computed/, false),
  dialogOf('what is in a position', /Change what is in\.$/),
  dialogOf('other choices', /^\d+ others?$/),
  dialogOf('forms of the report', /^Other forms of the report/),
  dialogOf('line-up', 'Line-up'),
  { name: 'trims', arrive: (page) => choose(page, 'Trims') },
  dialogOf('end of the visit', /A visit is open/),
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
    arrive: async (page) => {
      await choose(page, 'Chart');
      await press(page, 'Parts fitted, read again');
      await page.getByText(/^As predicted/).waitFor(wait);
    },
  },
  place('peaking', 'Peaking', (page) => page.getByRole('button', { name: 'Start' }).waitFor(wait)),
  {
    name: 'peaking, live',
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
  place('season', 'Season', (page) => page.locator('.season__table').waitFor(wait)),
  place('span and noise', 'Span and noise', (page) => page.locator('.span-main').waitFor(wait)),
  {
    name: 'season, watch',
    arrive: async (page) => {
      await choose(page, 'Season');
      await choose(page, 'Watch');
    },
  },
  place('set-up, its plan', 'Gain control', async (page) => {
    await beginVisit(page);
    await page.getByRole('button', { name: 'Begin the set-up' }).waitFor(wait);
  }),
  {
    name: 'set-up, a sweep',
    arrive: async (page) => {
      await press(page, 'Begin the set-up');
      await heading(page, 'Sweep as found');
    },
  },
  {
    name: 'set-up, a level',
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
    arrive: async (page) => {
      await close(page);
      await press(page, 'Back to the stations');
      await press(page, 'All records');
      await page.locator('.records__main').waitFor(wait);
    },
  },
  {
    name: 'history of a station',
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
    arrive: async (page) => {
      await press(page, /^Back to /);
      await press(page, 'Visits of a period');
      await press(page, 'Last 365 days');
      await page.locator('.period__table').waitFor(wait);
    },
  },
];
