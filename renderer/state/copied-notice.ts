import type { Copied } from '../charts/copied.ts';
import type { Notice } from './ui-slice.ts';

/** What came of copying a chart, in words. */
export function copiedNotice(copied: Copied): Notice {
  switch (copied) {
    case 'numbers':
      return { tone: 'news', text: 'The chart’s numbers are in the clipboard, as CSV.', help: '' };
    case 'picture':
      return { tone: 'news', text: 'The chart is in the clipboard, as a picture.', help: '' };
    case 'picture saved':
      return {
        tone: 'news',
        text: 'The clipboard took no picture.',
        help: 'The chart was saved as a file instead.',
      };
    case 'no numbers':
      return {
        tone: 'problem',
        text: 'The clipboard took nothing.',
        help: 'Let this page write to it, or save the sweep as a file.',
      };
    case 'no picture':
      return {
        tone: 'problem',
        text: 'The chart could not be made a picture.',
        help: 'Load the page once more, or print it.',
      };
  }
}
