export type SourceLinesProps = Readonly<{
  text: string;
  /** Numbers of the lines that are left out, from 1. */
  left: ReadonlySet<number>;
}>;

/** What scrolls must be reached by the keyboard. */
const byKeys = { tabIndex: 0 } as const;
/** A page of them is enough to know a file again. */
const MOST_LINES = 200;
const MOST_CHARS = 160;

/** A file as it stands, its lines numbered as they are spoken of; what is left out of it is struck. */
export function SourceLines({ text, left }: SourceLinesProps) {
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r\n?|\n/)
    .map((words, i) => ({ number: i + 1, words: words.slice(0, MOST_CHARS) }));
  if (lines.at(-1)?.words === '') lines.pop();
  return (
    <section className="source" aria-label="The file as it stands" {...byKeys}>
      <ol>
        {lines.slice(0, MOST_LINES).map(({ number, words }) => (
          <li key={number} className={left.has(number) ? 'source__left' : ''}>
            {words === '' ? '\u00A0' : words}
          </li>
        ))}
      </ol>
      {lines.length > MOST_LINES && <p>{`and ${lines.length - MOST_LINES} lines more`}</p>}
    </section>
  );
}
