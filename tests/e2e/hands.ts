import type { Locator, Page } from 'playwright-core';

/** A way to work the page. Every press is an action of a person; the keys on the way to it are counted apart. */
export type Hand = Readonly<{
  press: (what: Locator) => Promise<void>;
  /** What was pressed so far. */
  actions: () => number;
  keys: () => number;
}>;

const MOST_KEYS = 60;

/** What holds the focus now, in words, for whoever reads a failed test. */
const focusedNow = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const at = document.activeElement;
    return `${at?.tagName.toLowerCase()} "${at?.getAttribute('aria-label') ?? at?.textContent?.slice(0, 40)}"`;
  });

/**
 * Where the focus stands as seen from what is wanted: on it, beside it in one widget (whose members arrow keys walk), or
 * elsewhere. A radio button that is drawn by its label is found by the button inside.
 */
const focusSeenFrom = (what: Locator): Promise<'here' | 'in its widget' | 'elsewhere'> =>
  what.evaluate((wanted) => {
    const at = document.activeElement;
    if (at === wanted) return 'here';
    const widget = wanted.closest('[role="grid"], [role="listbox"], [role="radiogroup"]');
    return widget?.contains(at) ? 'in its widget' : 'elsewhere';
  });

/** True where the eye can find the focus: the element, or the label that is drawn for it, has an outline. */
const focusIsSeen = (what: Locator): Promise<boolean> =>
  what.evaluate((wanted) => {
    const drawn = [wanted, wanted.closest('label')].filter((one) => one !== null);
    return drawn.some((one) => {
      const { outlineStyle, outlineWidth } = getComputedStyle(one);
      return outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2;
    });
  });

/** Tab, arrow keys, Enter, and nothing else. */
export function keyboardHand(page: Page): Hand {
  let actions = 0;
  let keys = 0;
  return {
    async press(what) {
      await what.waitFor();
      const name = `${what}`;
      for (let tries = 0; ; tries += 1) {
        const focus = await focusSeenFrom(what);
        if (focus === 'here') break;
        if (tries === MOST_KEYS)
          throw new Error(`no way to ${name} in ${tries} keys; the focus is on ${await focusedNow(page)}`);
        await page.keyboard.press(focus === 'elsewhere' ? 'Tab' : 'ArrowDown');
        keys += 1;
      }
      if (!(await focusIsSeen(what))) throw new Error(`the focus on ${name} can't be seen`);
      // A radio button is chosen by walking to it.
      if (!(await what.evaluate((one) => one.matches('input[type="radio"]'))))
        await page.keyboard.press('Enter');
      keys += 1;
      actions += 1;
    },
    actions: () => actions,
    keys: () => keys,
  };
}

/** A gloved finger: what it presses is at least so large, in sight, and reached without any hover. */
export function touchHand(leastPx: Readonly<{ visit: number; usual: number }>): Hand {
  let actions = 0;
  return {
    async press(what) {
      await what.waitFor();
      await what.scrollIntoViewIfNeeded();
      const box = await what.boundingBox();
      const ofVisit = await what.evaluate((one) => one.matches('.button--visit'));
      const least = (ofVisit ? leastPx.visit : leastPx.usual) - 0.5;
      if (box === null || Math.min(box.width, box.height) < least)
        throw new Error(`${what} is ${box?.width} x ${box?.height} px, and a finger needs ${least}`);
      await what.tap();
      actions += 1;
    },
    actions: () => actions,
    keys: () => 0,
  };
}

/** A mouse, for what is not about the hand. */
export function mouseHand(): Hand {
  let actions = 0;
  return {
    async press(what) {
      await what.click();
      actions += 1;
    },
    actions: () => actions,
    keys: () => 0,
  };
}

/** From now on the page notes with what it is pointed at; says so when asked. */
export async function watchPointers(page: Page): Promise<() => Promise<readonly string[]>> {
  await page.addInitScript(() => {
    const note = (event: Event) => {
      if (!event.isTrusted) return;
      const kind = event instanceof PointerEvent ? event.pointerType : event.type;
      const noted = new Set((sessionStorage.getItem('pointed') ?? '').split(' ').filter((one) => one !== ''));
      sessionStorage.setItem('pointed', [...noted.add(kind)].join(' '));
    };
    // Not moves: where the page changes under it, a mouse that nobody touches is told of what came there.
    for (const type of ['pointerdown', 'wheel'])
      window.addEventListener(type, note, { capture: true, passive: true });
  });
  return () =>
    page.evaluate(() => (sessionStorage.getItem('pointed') ?? '').split(' ').filter((one) => one !== ''));
}
