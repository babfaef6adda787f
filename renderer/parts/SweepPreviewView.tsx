import type { SweepPreview } from '../../core/files/preview-sweep.ts';
import { bareMhz, counted, oneDecimal } from '../format.ts';

export type SweepPreviewViewProps = Readonly<{ preview: SweepPreview }>;

/** What a file was taken for, in one sentence. */
function sentence({ readingCount, lowMhz, highMhz, left, refusal }: SweepPreview): string {
  if (refusal !== null) return 'This can not be taken as it is.';
  const band = lowMhz === null || highMhz === null ? '' : `, ${bareMhz(lowMhz)} to ${bareMhz(highMhz)} MHz`;
  const out = left.length === 0 ? 'nothing left out' : `${left.length} left out`;
  return `${counted(readingCount, 'reading', 'readings')}${band}; ${out}.`;
}

/** How it was understood: what parted the cells, which heading is what, in which unit. */
function understood({ separator, columns, frequencyUnit, levelUnit }: SweepPreview): string {
  const named = columns
    .filter(({ role }) => role === 'frequency' || role === 'level' || role === 'mer')
    .map(({ role, heading }) => `${role === 'mer' ? 'MER' : role} from "${heading}"`);
  const unit = (told: string | null) => (told === 'in the cells' ? 'unit in each cell' : (told ?? ''));
  return [
    `Cells parted by ${separator ?? ''}`,
    ...named,
    `frequency: ${unit(frequencyUnit)}`,
    `level: ${unit(levelUnit)}`,
  ].join('; ');
}

const MOST_LEFT = 5;

/** A sweep before it is accepted: the finding, how it was read, ten rows, and what is left out and why. */
export function SweepPreviewView({ preview }: SweepPreviewViewProps) {
  const { refusal, rows, rowCount, left, rest, notes } = preview;
  const leftOut = [...left, ...rest.map(({ line, text }) => ({ line, reason: `"${text.slice(0, 60)}"` }))];
  return (
    <section className="preview" aria-label="What was understood">
      <p className="preview__finding">{sentence(preview)}</p>
      {refusal !== null && (
        <p className="preview__why" role="alert">
          <strong>{refusal.where}</strong>
          {`: ${refusal.help}`}
        </p>
      )}
      {refusal === null && <p className="preview__how">{understood(preview)}</p>}
      {notes.map((note) => (
        <p key={note} className="preview__how">
          {note}
        </p>
      ))}
      {rows.length > 0 && (
        <table className="preview__rows">
          <thead>
            <tr>
              <th scope="col">Line</th>
              <th scope="col">MHz</th>
              <th scope="col">dBmV</th>
              <th scope="col">Signal</th>
              <th scope="col">MER, dB</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr
                key={`${row.line} ${row.label} ${row.frequencyMhz} ${row.levelDbmv}`}
                className={row.reason === undefined ? '' : 'preview__off'}
              >
                <td>{row.line}</td>
                <td>{row.frequencyMhz === null ? '' : bareMhz(row.frequencyMhz)}</td>
                <td>{row.levelDbmv === null ? '' : oneDecimal(row.levelDbmv)}</td>
                <td>{row.reason ?? (row.unlocked ? 'not locked' : (row.modulation ?? row.kind ?? ''))}</td>
                <td>{row.merDb === undefined ? '' : oneDecimal(row.merDb)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {rowCount > rows.length && <p className="preview__how">{`and ${rowCount - rows.length} rows more`}</p>}
      {leftOut.length > 0 && (
        <>
          <p className="preview__how">Left out</p>
          <ul className="preview__left">
            {leftOut.slice(0, MOST_LEFT).map(({ line, reason }) => (
              <li key={`${line} ${reason}`}>{`line ${line}: ${reason}`}</li>
            ))}
            {leftOut.length > MOST_LEFT && <li>{`and ${leftOut.length - MOST_LEFT} more`}</li>}
          </ul>
        </>
      )}
    </section>
  );
}
