import { signedDecimal } from '../format.ts';
import type { DriftLine } from './WatchPicture.tsx';
import { lineName } from './watch-values.ts';

export type WatchTableProps = Readonly<{
  lines: readonly DriftLine[];
  /** What a row stands at: "time", "°C air". */
  where: string;
  whereWords: (at: number) => string;
  title: string;
}>;

/** The watch as numbers, a row a round in the order of its axis: dB from each channel's first reading. */
export function WatchTable({ lines, where, whereWords, title }: WatchTableProps) {
  const dbs = lines.map(({ points }) => new Map(points.map(({ key, db }) => [key, db])));
  const rounds = [...(lines[0]?.points ?? [])].sort((a, b) => a.at - b.at || a.key - b.key);
  return (
    <table className="numbers numbers--close">
      <caption className="unseen">{title}</caption>
      <thead>
        <tr>
          <th scope="col">{where}</th>
          {lines.map((line) => (
            <th key={line.frequencyMhz} scope="col">
              {lineName(line)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rounds.map(({ key, at }) => (
          <tr key={key}>
            <th scope="row">{whereWords(at)}</th>
            {lines.map(({ frequencyMhz }, i) => {
              const db = dbs[i]?.get(key) ?? null;
              return <td key={frequencyMhz}>{db === null ? 'no level' : signedDecimal(db)}</td>;
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
