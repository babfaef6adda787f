import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { levelUnitWords } from '../../core/files/level-unit.ts';
import type { SweepPreview } from '../../core/files/preview-sweep.ts';
import { asWritten, bareLevel, bareMhz, capital, counted, levelWord, oneDecimal } from '../format.ts';
import { LevelSketch } from './LevelSketch.tsx';

export type SweepPreviewViewProps = Readonly<{ preview: SweepPreview; unit: LevelUnitName }>;

/** What a file was taken for, in one sentence. */
function sentence({ readingCount, lowMhz, highMhz, left, refusal, asks }: SweepPreview): string {
  if (asks !== null) return 'One question first.';
  if (refusal !== null) return 'This can not be taken as it is.';
  const band = lowMhz === null || highMhz === null ? '' : `, ${bareMhz(lowMhz)} to ${bareMhz(highMhz)} MHz`;
  const out = left.length === 0 ? 'nothing left out' : `${left.length} left out`;
  return `${counted(readingCount, 'reading', 'readings')}${band}; ${out}.`;
}

const shownUnits: ReadonlyMap<string, string> = new Map(Object.entries(levelUnitWords));
const unitWords = (told: string | null): string =>
  told === 'in the cells' ? 'unit in each cell' : `in ${shownUnits.get(told ?? '') ?? told ?? ''}`;

/** How it was understood: which heading is what, in which unit, and what parted the cells. */
function understood({ separator, columns, frequencyUnit, levelUnit }: SweepPreview) {
  const from = (role: string) => columns.find((column) => column.role === role)?.heading;
  const named = (role: string, unit: string | null) => {
    const heading = from(role);
    return heading === undefined ? unitWords(unit) : `\u201C${heading}\u201D, ${unitWords(unit)}`;
  };
  const mer = from('mer');
  return [
    ['Frequency', named('frequency', frequencyUnit)],
    ['Level', named('level', levelUnit)],
    ...(mer === undefined ? [] : [['MER', `\u201C${mer}\u201D`]]),
    ['Cells', `parted by ${separator ?? ''}`],
  ] as const;
}

const MOST_ROWS = 6;
const MOST_LEFT = 8;

/** A sweep before it is accepted: the finding, its shape, how it was read, some rows, and what is left out and why. */
export function SweepPreviewView({ preview, unit }: SweepPreviewViewProps) {
  const { refusal, rows, rowCount, left, rest, notes, levels } = preview;
  const leftOut = [
    ...left,
    ...rest.map(({ line, text }) => ({
      line,
      reason: `says nothing of levels: \u201C${text.slice(0, 60)}\u201D`,
    })),
  ].sort((a, b) => a.line - b.line);
  const shown = rows.slice(0, MOST_ROWS);
  return (
    <section className="preview" aria-label="What was understood">
      <p className="preview__finding">{sentence(preview)}</p>
      {refusal !== null && (
        <p className="preview__why" role="alert">
          <strong>{refusal.where}</strong>
          {`: ${refusal.help}`}
        </p>
      )}
      {levels.length > 0 && <LevelSketch levels={levels} unit={unit} />}
      {refusal === null && (
        <dl className="preview__how">
          {understood(preview).map(([what, how]) => (
            <div key={what}>
              <dt>{what}</dt>
              <dd>{how}</dd>
            </div>
          ))}
        </dl>
      )}
      {notes.map((note) => (
        <p key={note} className="preview__note">
          {`${asWritten(capital(note))}.`}
        </p>
      ))}
      {shown.length > 0 && (
        <table className="preview__rows">
          <thead>
            <tr>
              <th scope="col">Line</th>
              <th scope="col">MHz</th>
              <th scope="col">{levelWord(unit)}</th>
              <th scope="col">MER, dB</th>
              <th scope="col">Signal</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((row) => (
              <tr
                key={`${row.line} ${row.label} ${row.frequencyMhz} ${row.levelDbmv}`}
                className={row.reason === undefined && !row.unlocked ? '' : 'preview__off'}
              >
                <td>{row.line}</td>
                <td>{row.frequencyMhz === null ? '' : bareMhz(row.frequencyMhz)}</td>
                <td>{row.levelDbmv === null ? '' : bareLevel(row.levelDbmv, unit)}</td>
                <td>{row.merDb === undefined ? '' : oneDecimal(row.merDb)}</td>
                <td>
                  {row.reason === undefined && !row.unlocked
                    ? (row.modulation ?? row.kind ?? '')
                    : 'left out'}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {rowCount > shown.length && (
        <p className="preview__note">{`and ${counted(rowCount - shown.length, 'row', 'rows')} more`}</p>
      )}
      {leftOut.length > 0 && (
        <section className="preview__left" aria-label="Left out">
          <h3>Left out</h3>
          <ul>
            {leftOut.slice(0, MOST_LEFT).map(({ line, reason }) => (
              <li key={`${line} ${reason}`}>
                <span>{`line ${line}`}</span> {reason}
              </li>
            ))}
            {leftOut.length > MOST_LEFT && <li>{`and ${leftOut.length - MOST_LEFT} more`}</li>}
          </ul>
        </section>
      )}
    </section>
  );
}
