import type { Context } from './context.ts';

export type KeptChange = Readonly<{
  /** What is said of it: "The line-up is kept." */
  text: string;
  /** The number of the revision that it made. */
  revision: number;
  /** The newest one now; another means that somebody changed something since. */
  newest: () => number;
  /** Keeps the older content once more, as a revision of its own. */
  back: () => Promise<boolean>;
}>;

/**
 * Says that something is kept and offers the way back. Nothing is taken out of the archive: the older content becomes the
 * newest revision, and that in turn can be taken back.
 */
export function offerBack({ store }: Context, change: KeptChange): void {
  const { noticed } = store.getState();
  noticed({
    tone: 'news',
    text: change.text,
    help: '',
    undo: {
      go: () => {
        if (change.newest() === change.revision) void change.back();
        else
          noticed({
            tone: 'problem',
            text: 'That was not taken back.',
            help: 'It was changed once more since then; look at what holds now and put that right.',
          });
      },
    },
  });
}
