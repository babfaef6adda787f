import { bareMhz, oneDecimal } from '../format.ts';
import type { SpanCurve } from './SpanPicture.tsx';
import type { SpanRow } from './span-values.ts';

export type SpanTableProps = Readonly<{
  rows: readonly SpanRow[];
  curves: readonly SpanCurve[];
  title: string;
}>;

const lost = (lossDb: number | null): string => (lossDb === null ? '' : oneDecimal(lossDb));

/** The span as numbers: dB lost at each frequency on each day, and measured where a sweep tells it. */
export function SpanTable({ rows, curves, title }: SpanTableProps) {
  const isMeasured = rows.some(({ measured }) => measured !== null);
  return (
    <table className="numbers numbers--close">
      <caption className="unseen">{title}</caption>
      <thead>
        <tr>
          <th scope="col">MHz</th>
          {curves.map(({ key, words }) => (
            <th key={key} scope="col">{`${words}, dB`}</th>
          ))}
          {isMeasured && <th scope="col">measured, dB</th>}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.mhz}>
            <th scope="row">{bareMhz(row.mhz)}</th>
            {curves.map(({ key }) => (
              <td key={key}>{lost(row[key])}</td>
            ))}
            {isMeasured && <td>{lost(row.measured)}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
