import type { How } from '../how/how.ts';
import { HowButton } from './HowButton.tsx';
import { Mark, type Verdict } from './Mark.tsx';

export type FindingRow = Readonly<{
  name: string;
  value: string;
  /** "±0.4": what the value is good to, dB; empty where nothing is known of it. */
  goodTo: string;
  target: string;
  verdict: Verdict;
  word: string;
  /** How certain the verdict is, in words. */
  sure: string;
  pointing: 'up' | 'down';
  /** How the value was computed. */
  how: How;
}>;
export type FindingTableProps = Readonly<{ caption: string; rows: readonly FindingRow[] }>;

/** Each figure with what it should be, what it is good to and how it stands, in word and shape. A press tells how. */
export const FindingTable = ({ caption, rows }: FindingTableProps) => (
  <table className="finding">
    <caption className="unseen">{caption}</caption>
    <thead className="unseen">
      <tr>
        <th scope="col">Figure</th>
        <th scope="col">Value</th>
        <th scope="col">Standing</th>
      </tr>
    </thead>
    <tbody>
      {rows.map((row) => (
        <tr key={row.name}>
          <th scope="row">
            {row.name}
            <small className="finding__target">{row.target}</small>
          </th>
          <td className="finding__value">
            <HowButton how={row.how} label={`${row.name}, ${row.how.value}`}>
              <span className="finding__number">{row.value}</span>
              {row.goodTo !== '' && <span className="finding__good-to">{row.goodTo}</span>}
            </HowButton>
          </td>
          <td className={`finding__standing finding__standing--${row.verdict}`}>
            <span>
              <Mark verdict={row.verdict} pointing={row.pointing} /> {row.word}
            </span>
            {row.sure !== '' && <small>{row.sure}</small>}
          </td>
        </tr>
      ))}
    </tbody>
  </table>
);
