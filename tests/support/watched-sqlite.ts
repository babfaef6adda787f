import type Database from 'better-sqlite3';

type Sqlite = Readonly<{ default: typeof Database }>;

/** Every connection that was made since the test file began, the newest last. */
export const opened: Database.Database[] = [];

/** The package with its connections noted, for `vi.mock`: an archive keeps its connection to itself. It may import nothing that opens one. */
export function watched({ default: Real }: Sqlite): Sqlite {
  class Watched extends Real {
    constructor(...given: ConstructorParameters<typeof Database>) {
      super(...given);
      opened.push(this);
    }
  }
  return { default: Watched as typeof Database };
}
