/**
 * No records: what each sweep came to when it was last judged, so that thousands need not be judged anew at each start. What it was
 * judged by is told by a digest; where that is another now, so is the row.
 */
export const judgedSweeps = `
CREATE TABLE judged_basis (
  seq INTEGER PRIMARY KEY NOT NULL,
  digest TEXT NOT NULL UNIQUE CHECK (length(digest) >= 1)
) STRICT;

CREATE TABLE judged_sweep (
  sweep INTEGER PRIMARY KEY NOT NULL REFERENCES sweep (seq),
  basis INTEGER NOT NULL REFERENCES judged_basis (seq),
  -- 0 fail, 1 pass, 2 undecided; null where it can't be judged, and so are the figures.
  verdict INTEGER CHECK (verdict IN (0, 1, 2)),
  level_db REAL,
  tilt_db REAL,
  flatness_db REAL,
  worst_db REAL,
  worst_mhz REAL,
  -- Or why it can't be judged; null where nobody has asked for the words of a judged one.
  words TEXT CHECK (length(words) >= 1),
  CHECK (verdict IS NOT NULL OR words IS NOT NULL),
  CHECK (verdict IS NULL OR (level_db IS NOT NULL AND tilt_db IS NOT NULL AND flatness_db IS NOT NULL
    AND worst_db IS NOT NULL AND worst_mhz IS NOT NULL))
) STRICT;
`;
