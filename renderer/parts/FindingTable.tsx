import { Mark, type Verdict } from './Mark.tsx';

export type FindingRow = Readonly<{
  name: string;
  value: string;
  target: string;
  verdict: Verdict;
  word: string;
  pointing: 'up' | 'down';
}>;
export type FindingTableProps = Readonly<{ caption: string; rows: readonly FindingRow[] }>;

/** Each figure with what it should be and how it stands, in word and shape. */
export const FindingTable = ({ caption, rows }: FindingTableProps) => (
  <table className="finding">
    <caption className="unseen">{caption}</caption>
    <thead className="unseen">
      <tr>
        <th scope="col">Figure</th>
        <th scope="col">Value</th>
        <th scope="col">Design</th>
        <th scope="col">Standing</th>
      </tr>
    </thead>
    <tbody>
      {rows.map((row) => (
        <tr key={row.name}>
          <th scope="row">{row.name}</th>
          <td className="finding__value">{row.value}</td>
          <td className="finding__target">{row.target}</td>
          <td className={`finding__standing finding__standing--${row.verdict}`}>
            <Mark verdict={row.verdict} pointing={row.pointing} /> {row.word}
          </td>
        </tr>
      ))}
    </tbody>
  </table>
);
