import { oneDecimal } from '../format.ts';
import { type ControlRow, valueWords } from './control-values.ts';

export type ControlTableProps = Readonly<{
  rows: readonly ControlRow[];
  figure: string;
  isSigned: boolean;
  /** Whether there are limits to stand out from. */
  hasChart: boolean;
  title: string;
}>;

/** A figure over the years as numbers, with the rules that a sweep breaks by name. */
export const ControlTable = ({ rows, figure, isSigned, hasChart, title }: ControlTableProps) => (
  <table className="numbers numbers--close numbers--named">
    <caption className="unseen">{title}</caption>
    <thead>
      <tr>
        <th scope="col">Read</th>
        <th scope="col">{`${figure}, dB`}</th>
        {hasChart && <th scope="col">Moving range, dB</th>}
        {hasChart && <th scope="col">Stands out by</th>}
      </tr>
    </thead>
    <tbody>
      {rows.map(({ point, rangeDb }) => (
        <tr key={point.key}>
          <th scope="row">{point.words}</th>
          <td>{valueWords(point.valueDb, isSigned)}</td>
          {hasChart && <td>{rangeDb === null ? '\u2013' : oneDecimal(rangeDb)}</td>}
          {hasChart && (
            <td>
              {point.isNewest
                ? point.breaks.map(({ words, name }) => `${words} (${name})`).join('; ')
                : 'before the last change: counts for no limit'}
            </td>
          )}
        </tr>
      ))}
    </tbody>
  </table>
);
