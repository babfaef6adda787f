import { counted, whole } from '../../format.ts';
import { Mark } from '../../parts/Mark.tsx';
import { dayWords } from '../../state/quality-words.ts';
import type { TransferLook } from '../../state/transfer-commands.ts';
import { becameWords, conflictTitle, differenceWords, laptopWords } from '../../state/transfer-words.ts';
import type { TransferWork } from './use-transfer.ts';

/** What became of each file just now. */
export const BecameList = ({ work }: Readonly<{ work: Extract<TransferWork, { at: 'taken' }> }>) => (
  <ul className="transfer__became" aria-label="What became of each file">
    {work.files.map((file) => {
      const { word, more, isTrouble } = becameWords(file);
      return (
        <li key={file.fileName}>
          <Mark verdict={isTrouble ? 'undecided' : 'pass'} />
          <span>
            <strong>{word}</strong>
            {more !== '' && `: ${more}`}
            <small>{file.fileName}</small>
          </span>
        </li>
      );
    })}
  </ul>
);

/** Two records of one name, side by side, each with the laptop that it came from. */
export const ConflictList = ({ conflicts }: Readonly<{ conflicts: TransferLook['conflicts'] }>) => (
  <section className="transfer__conflicts" aria-label="Records that say otherwise">
    <h2>Two that say otherwise</h2>
    <p>
      Somebody changed one of each pair by hand: ordinary work never brings this about. The one on the left
      counts here. Ask at both laptops which is right, and declare the other void, or correct it.
    </p>
    {conflicts.map((pair) => (
      <table key={`${pair.id} ${pair.other.device} ${pair.other.seq}`} className="numbers transfer__pair">
        <caption>
          {conflictTitle(pair)} <small>{pair.id}</small>
        </caption>
        <thead>
          <tr>
            <th scope="col">What differs</th>
            <th scope="col">
              {pair.here === null
                ? 'Here'
                : `Here: ${laptopWords(pair.here.device)}, record ${whole(pair.here.seq)}`}
            </th>
            <th scope="col">{`The other: ${laptopWords(pair.other.device)}, record ${whole(pair.other.seq)}`}</th>
          </tr>
        </thead>
        <tbody>
          {pair.differences.map((difference) => {
            const { words, here, other } = differenceWords(difference);
            return (
              <tr key={difference.key}>
                <th scope="row">{words}</th>
                <td>{here}</td>
                <td>{other}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    ))}
  </section>
);

/** The files that were taken in so far, the newest first. */
export const FileList = ({ files }: Readonly<{ files: TransferLook['files'] }>) => (
  <section className="transfer__files" aria-label="What came in">
    <h2>What came in</h2>
    <table className="numbers">
      <thead>
        <tr>
          <th scope="col">Taken in</th>
          <th scope="col">From</th>
          <th scope="col">Made</th>
          <th scope="col">Brought</th>
          <th scope="col">By</th>
        </tr>
      </thead>
      <tbody>
        {files.map((file) => (
          <tr key={`${file.takenAt} ${file.fileName}`}>
            <td>{dayWords(Date.parse(file.takenAt))}</td>
            <th scope="row">{laptopWords(file.device)}</th>
            <td>{dayWords(Date.parse(file.madeAt))}</td>
            <td>
              {counted(file.added, 'record', 'records')}
              {file.conflicts > 0 &&
                `, ${whole(file.conflicts)} that ${file.conflicts === 1 ? 'says' : 'say'} otherwise`}
            </td>
            <td>{file.operator === '' ? '\u2013' : file.operator}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </section>
);
