import type { Page } from 'playwright-core';

export type Control = Readonly<{
  name: string;
  width: number;
  height: number;
  /** The part of it that can be pressed now: a list that is walked sideways shows some of its rows in part. */
  seen: Readonly<{ left: number; top: number; right: number; bottom: number }>;
  /** A figure inside a sentence: it is pressed where its words are, and its target is taller than they are. */
  inline: boolean;
  /** One of the large buttons of a visit. */
  ofVisit: boolean;
  /** Its place in a group whose members belong side by side (segments, rows of a list, keys of a step); null where it stands alone. */
  group: string | null;
}>;

/** Every control that can be seen now, with the box that a finger meets: for a radio button its whole label. */
export const controlsOf = (page: Page): Promise<readonly Control[]> =>
  page.evaluate(() => {
    const wanted =
      'button, a[href], input, textarea, select, [role="slider"], [role="option"], [role="row"][tabindex], [role="radio"]';
    const groups =
      '[role="radiogroup"], [role="listbox"], [role="grid"], [role="group"], fieldset, ol, table';
    const seen = new Map<Element, Control>();
    const numbers = new Map<Element, number>();
    const top = document.querySelector('[role="dialog"]') ?? document.body;
    for (const control of top.querySelectorAll(wanted)) {
      const label = control.matches('input[type="radio"], input[type="checkbox"]')
        ? control.closest('label')
        : control;
      if (label === null || seen.has(label) || label.closest('[aria-hidden="true"], .unseen, .skip'))
        continue;
      // What can't be pressed is no target: what stands behind a question, a mark between the sweeps of a log, a row of a table that is only walked.
      if (label.closest('[inert]') !== null) continue;
      if (label.matches('[aria-disabled="true"]:not(button), [role="row"]:not([aria-selected])')) continue;
      if (label.getAttribute('tabindex') === '-1' && label.matches('input')) continue;
      // The libraries hide what only a screen reader meets in a box of one pixel.
      const parent = label.parentElement;
      if (parent !== null && parent.offsetWidth <= 1 && getComputedStyle(parent).overflow === 'hidden')
        continue;
      const box = label.getBoundingClientRect();
      if (box.width < 2 || box.height < 2 || !label.checkVisibility({ visibilityProperty: true })) continue;
      // What a figure in a sentence adds around itself for the finger (WCAG 2.5.5 and 2.5.8 leave such out altogether).
      const around = getComputedStyle(label, '::after');
      const inline = label.matches('.how-button--quiet') && around.position === 'absolute';
      const width = inline ? Math.max(box.width, Number.parseFloat(around.width)) : box.width;
      const height = inline ? Math.max(box.height, Number.parseFloat(around.height)) : box.height;
      const part = { left: box.left, top: box.top, right: box.right, bottom: box.bottom };
      for (let at = label.parentElement; at !== null && at !== document.body; at = at.parentElement) {
        if (getComputedStyle(at).overflowX === 'visible') continue;
        const frame = at.getBoundingClientRect();
        part.left = Math.max(part.left, frame.left);
        part.right = Math.min(part.right, frame.right);
        part.top = Math.max(part.top, frame.top);
        part.bottom = Math.min(part.bottom, frame.bottom);
      }
      if (part.right <= part.left || part.bottom <= part.top) continue;
      const group = label.parentElement?.closest(groups) ?? null;
      if (group !== null && !numbers.has(group)) numbers.set(group, numbers.size);
      seen.set(label, {
        name:
          `${label.getAttribute('aria-label') ?? label.textContent?.trim() ?? ''}`.slice(0, 60) ||
          `${label.tagName.toLowerCase()}.${label.className}`,
        width: Math.round(width * 10) / 10,
        height: Math.round(height * 10) / 10,
        inline,
        seen: part,
        ofVisit: label.classList.contains('button--visit'),
        group: group === null ? null : String(numbers.get(group)),
      });
    }
    return [...seen.values()];
  });

/** What is smaller than a gloved finger needs: 44 px, and 56 px for the actions of a visit (half a pixel for rounding). */
export const tooSmall = (controls: readonly Control[]): readonly string[] =>
  controls
    .filter(({ width, height, ofVisit }) => Math.min(width, height) < (ofVisit ? 56 : 44) - 0.5)
    .map(({ name, width, height }) => `${name}: ${width} x ${height}`);

/** Pairs of controls that a finger may take for each other: less than 8 px apart and not of one group. */
export function tooClose(controls: readonly Control[], leastPx = 8): readonly string[] {
  const found: string[] = [];
  controls.forEach((one, i) => {
    for (const other of controls.slice(i + 1)) {
      if (one.inline || other.inline || (one.group !== null && one.group === other.group)) continue;
      const across = Math.max(one.seen.left, other.seen.left) - Math.min(one.seen.right, other.seen.right);
      const down = Math.max(one.seen.top, other.seen.top) - Math.min(one.seen.bottom, other.seen.bottom);
      const gap = Math.max(across, down);
      const isInside =
        across <= -Math.min(one.width, other.width) && down <= -Math.min(one.height, other.height);
      if (!isInside && gap < leastPx - 0.5) found.push(`${one.name} | ${other.name}: ${gap.toFixed(1)}`);
    }
  });
  return found;
}

const DESTRUCTIVE = /^(?:Give it up|Forget these|Remove)/;

/** What takes something away, less than 16 px from the one thing to do: a hand that slips would lose work. */
export const besideTheDeed = (controls: readonly Control[], deed: string): readonly string[] =>
  controls
    .filter(({ name }) => DESTRUCTIVE.test(name))
    .flatMap((one) => tooClose([one, ...controls.filter(({ name }) => name === deed)], 16));

export type TextFaults = Readonly<{ small: readonly string[]; cut: readonly string[]; sidewaysPx: number }>;

/** Text under 14 px, text that its box cuts off, and how far the page would have to be moved sideways. */
export const textFaults = (page: Page): Promise<TextFaults> =>
  page.evaluate(() => {
    const small = new Set<string>();
    const cut = new Set<string>();
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
      const words = node.textContent?.trim() ?? '';
      const box = node.parentElement;
      if (
        words === '' ||
        box === null ||
        box.closest('.unseen, .skip, noscript, script, [data-live-announcer]')
      )
        continue;
      if (!box.checkVisibility({ visibilityProperty: true })) continue;
      if (Number.parseFloat(getComputedStyle(box).fontSize) < 13.9) small.add(words.slice(0, 40));
      const range = document.createRange();
      range.selectNodeContents(node);
      const ink = range.getBoundingClientRect();
      const slack = ink.height * 0.3; // the room over and under the letters of a line
      // Every frame around the words that cuts off what does not fit, and can't be scrolled.
      for (let at: Element | null = box; at !== null && at !== document.body; at = at.parentElement) {
        const style = getComputedStyle(at);
        if (at instanceof SVGElement && !at.matches('svg')) continue;
        if (style.position === 'fixed') break;
        const frame = at.getBoundingClientRect();
        const hidesX = style.overflowX === 'hidden' || style.overflowX === 'clip';
        const hidesY = style.overflowY === 'hidden' || style.overflowY === 'clip';
        if (hidesX && (ink.right > frame.right + 1.5 || ink.left < frame.left - 1.5))
          cut.add(words.slice(0, 40));
        if (hidesY && (ink.bottom > frame.bottom + slack || ink.top < frame.top - slack))
          cut.add(words.slice(0, 40));
        if (style.overflowX === 'auto' || style.overflowX === 'scroll') break;
      }
    }
    return {
      small: [...small],
      cut: [...cut],
      sidewaysPx: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    };
  });
