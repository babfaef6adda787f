import { useState } from 'react';
import { FileTrigger, Input, Label, TextField } from 'react-aria-components';
import { counted, whole } from '../../format.ts';
import { PressButton } from '../../parts/PressButton.tsx';
import { selectStations } from '../../state/select.ts';
import { laptopWords, lookWords, progressWords } from '../../state/transfer-words.ts';
import { useBench, useSelected, useWorkbench } from '../../state/use-workbench.ts';
import { RecordsBar } from '../quality/RecordsBar.tsx';
import { GivePart } from './GivePart.tsx';
import { BecameList, ConflictList, FileList } from './TakenList.tsx';
import { type TransferWork, useTransfer } from './use-transfer.ts';

const FOLDER_KEY = 'tiltwright-shared-folder/1';
const two = (value: number) => String(value).padStart(2, '0');
/** "2026-11-25", so many days ago, as a date field holds it. */
function dayBack(now: string, days: number): string {
  const at = new Date(now);
  const then = new Date(at.getFullYear(), at.getMonth(), at.getDate() - days);
  return `${then.getFullYear()}-${two(then.getMonth() + 1)}-${two(then.getDate())}`;
}

/** Records go to other laptops here, and theirs come in. */
export function TransferScreen() {
  const stations = useSelected(selectStations);
  const { closeTransfer } = useWorkbench();
  const { now } = useBench();
  const { work, look, stop, give, takeFolder, takeFiles } = useTransfer();
  const [folder, setFolder] = useState(() => localStorage.getItem(FOLDER_KEY) ?? '');
  const isBusy = work.at === 'giving' || work.at === 'taking';
  const named = folder.trim() === '' ? null : folder.trim();
  return (
    <div className="transfer">
      <RecordsBar name="Other laptops" backTo="the stations" onBack={closeTransfer} />
      <main className="transfer__main">
        <div className="transfer__head">
          <h1>{look === null ? 'Other laptops' : lookWords(look)}</h1>
          {look !== null && (
            <p>{`This is ${laptopWords(look.head.device)}; its chain has ${counted(look.head.seq, 'record', 'records')}.`}</p>
          )}
        </div>
        <TextField
          className="field transfer__folder"
          value={folder}
          onChange={(text) => {
            setFolder(text);
            localStorage.setItem(FOLDER_KEY, text);
          }}
        >
          <Label>The folder that the laptops share: a stick, or a drive that all reach</Label>
          <Input placeholder="/media/stick/records" spellCheck="false" autoComplete="off" />
        </TextField>
        <div className="transfer__parts">
          <section className="transfer__part" aria-label="Take in">
            <h2>Take in</h2>
            <p>
              Every file of the folder that is new. What is here already is passed over; a file that is not
              whole changes nothing.
            </p>
            <div className="transfer__ways">
              <PressButton
                rank="do"
                size="visit"
                isDisabled={isBusy || named === null}
                onPress={() => named !== null && takeFolder(named)}
              >
                Take in the folder
              </PressButton>
              <FileTrigger allowsMultiple onSelect={(files) => files && takeFiles([...files])}>
                <PressButton size="visit" isDisabled={isBusy}>
                  Take in a file
                </PressButton>
              </FileTrigger>
            </div>
          </section>
          {stations.at === 'listed' && stations.rows.length > 0 && (
            <GivePart
              stations={stations.rows}
              folder={named}
              isBusy={isBusy}
              week={[dayBack(now(), 6), dayBack(now(), 0)]}
              onGive={give}
            />
          )}
        </div>
        <Work work={work} onStop={stop} />
        {look !== null && look.conflicts.length > 0 && <ConflictList conflicts={look.conflicts} />}
        {look !== null && look.files.length > 0 && <FileList files={look.files} />}
      </main>
    </div>
  );
}

function Work({ work, onStop }: Readonly<{ work: TransferWork; onStop: () => void }>) {
  return (
    <div className="transfer__work" role="status">
      {(work.at === 'giving' || work.at === 'taking') && (
        <div className="transfer__progress">
          <span>{progressWords(work.at, work.progress)}</span>
          <progress
            aria-label="How far it is"
            max={work.progress?.total ?? undefined}
            value={work.progress?.total === null ? undefined : work.progress?.done}
          />
          <PressButton onPress={onStop}>Stop</PressButton>
        </div>
      )}
      {work.at === 'given' && (
        <p>
          {`${counted(work.given.records, 'record', 'records')} with ${counted(work.given.sweeps, 'sweep', 'sweeps')} are in one file of ${whole(Math.ceil(work.given.bytes / 1000))} kB: `}
          <strong>{work.given.fileName}</strong>
        </p>
      )}
      {work.at === 'taken' &&
        (work.files.length === 0 ? (
          <p>No file of records is in this folder. On the other laptop, choose Put into the folder first.</p>
        ) : (
          <BecameList work={work} />
        ))}
    </div>
  );
}
