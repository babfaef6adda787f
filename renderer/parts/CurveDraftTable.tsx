import type { Position } from '../../core/files/station.ts';
import { lossDb } from '../../core/plug-ins/loss.ts';
import { bareMhz, oneDecimal, signedDecimal } from '../format.ts';

export type CurveDraftTableProps = Readonly<{
  valueDb: number;
  /** With what holds so far. */
  position: Position;
  /** The same with what was measured. */
  measured: Position;
  atMhz: readonly number[];
}>;

/** A measured loss beside the one that was computed with so far, where it matters: at the ends of the band and between. */
export const CurveDraftTable = ({ valueDb, position, measured, atMhz }: CurveDraftTableProps) => (
  <table className="curve__table">
    <thead>
      <tr>
        <th scope="col">MHz</th>
        <th scope="col">So far, dB</th>
        <th scope="col">Measured, dB</th>
        <th scope="col">More</th>
      </tr>
    </thead>
    <tbody>
      {atMhz.map((mhz) => {
        const [before, now] = [lossDb(position, valueDb, mhz), lossDb(measured, valueDb, mhz)];
        return (
          <tr key={mhz}>
            <th scope="row">{bareMhz(mhz)}</th>
            <td>{oneDecimal(before)}</td>
            <td>
              <strong>{oneDecimal(now)}</strong>
            </td>
            <td>{signedDecimal(now - before)}</td>
          </tr>
        );
      })}
    </tbody>
  </table>
);
