import type { Step } from '../../electron/backend/archive/migrate.ts';
import type { Archive } from '../../electron/backend/archive/open.ts';
import type { Place } from './said.ts';

export type Tell = Readonly<{ enter: (place: Place, step?: number) => void; leave: (place: Place) => void }>;

/** The steps of the migration, each told before it begins; what comes behind the last one is told as well. */
export function toldSteps(steps: readonly Step[], { enter, leave }: Tell): readonly Step[] {
  return steps.map(
    (step, i): Step =>
      (db) => {
        enter('migrating an older archive', i + 1);
        if (typeof step === 'string') db.exec(step);
        else step(db);
        if (i < steps.length - 1) return;
        leave('migrating an older archive');
        enter('linking the records of an older archive');
      },
  );
}

/** The same archive; it says when a sweep is packed, a backup copied and looked through, a file of another laptop kept. */
export function watchedArchive(archive: Archive, { enter, leave }: Tell): Archive {
  /** A transaction is over before any other turn of the program begins. */
  const begin = (place: Place) => {
    enter(place);
    queueMicrotask(() => leave(place));
  };
  return {
    ...archive,
    sweeps: {
      ...archive.sweeps,
      end(seq, ended) {
        begin('packing a sweep at its end');
        archive.sweeps.end(seq, ended);
      },
    },
    transfer: {
      ...archive.transfer,
      beginTakeIn() {
        const aside = archive.transfer.beginTakeIn();
        return {
          ...aside,
          keep(from) {
            begin("keeping another laptop's file");
            return aside.keep(from);
          },
        };
      },
    },
    copies: {
      ...archive.copies,
      async copyTo(path, told) {
        enter('copying a backup');
        await archive.copies.copyTo(path, told);
        leave('copying a backup');
        enter('looking a backup through');
      },
      upTo(copy) {
        leave('looking a backup through');
        enter('naming a backup, letting older ones go');
        return archive.copies.upTo(copy);
      },
    },
  };
}
