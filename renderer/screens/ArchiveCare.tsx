import { useEffect, useRef, useState } from 'react';
import { Input, Label, TextField } from 'react-aria-components';
import { capital, counted, day, decimals, whole } from '../format.ts';
import { Mark } from '../parts/Mark.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import type { BackupList, BackupProgress, Checked, CheckProgress } from '../state/backup-commands.ts';
import { selectBusy, selectCare } from '../state/select.ts';
import { useBench, useSelected } from '../state/use-workbench.ts';

const MB = 1_000_000;
const size = (bytes: number) => `${decimals(bytes / MB, 1)}\u00A0MB`;

/** One sentence on the newest good backup, or that there is none. */
function backupWords({ backups, folder }: BackupList, now: string): string {
  const good = backups.find(({ broken }) => broken === 0);
  if (good === undefined)
    return `No backup was made yet. One is made each day, a minute after the start, into ${folder}.`;
  return `The last good backup was made ${day(good.madeAt, now)}, with ${counted(good.sweeps, 'sweep', 'sweeps')}; ${counted(backups.length, 'backup is', 'backups are')} kept in ${folder}.`;
}

const share = (done: number, total: number): string =>
  `${total === 0 ? 0 : Math.min(100, Math.floor((100 * done) / total))}\u00A0%`;
const progressWords = ({ what, done, total }: BackupProgress): string =>
  `${what === 'copying' ? 'Copying' : 'Looking the copy through'}: ${share(done, total)}`;
const checkWords = ({ done, total }: CheckProgress): string =>
  `Looked at ${whole(done)} of ${whole(total)} records: ${share(done, total)}`;

/** What the check found, the first break before anything else. */
export const checkedWords = ({ records, sweeps, broken }: Checked): string =>
  broken.length === 0
    ? `${counted(records, 'record', 'records')} with ${counted(sweeps, 'sweep', 'sweeps')}: each is as it was recorded. This shows what was changed, not that nothing could be.`
    : `${counted(broken.length, 'record is', 'records are')} not as recorded. The first: ${broken[0]?.words ?? ''}`;

/** Kept elsewhere, on paper say, the head proves all records before it. */
const headWords = ({ head }: Checked): string =>
  head.seq === 0
    ? 'This laptop has recorded nothing yet.'
    : `Head of this laptop’s chain: ${head.device}, record ${head.seq}, ${head.hash}`;

/** Where the records are, whether they are what was recorded, and the copies of them. */
export function ArchiveCare() {
  const { workbench, now } = useBench();
  const busy = useSelected(selectBusy);
  const folderWarning = useSelected(selectCare)?.folderWarning ?? null;
  const [list, setList] = useState<BackupList | null>(null);
  const [folder, setFolder] = useState('');
  const [progress, setProgress] = useState<BackupProgress | null>(null);
  const [checking, setChecking] = useState<CheckProgress | null>(null);
  const [checked, setChecked] = useState<Checked | null>(null);
  const [said, setSaid] = useState('');
  const stopCheck = useRef<AbortController | null>(null);
  // Nobody would see what it found.
  useEffect(() => () => stopCheck.current?.abort(), []);
  useEffect(() => {
    void workbench.listBackups().then(setList);
  }, [workbench]);

  const backUp = async () => {
    setSaid('');
    setChecked(null);
    const made = await workbench.makeBackup(folder.trim() === '' ? null : folder.trim(), setProgress);
    setProgress(null);
    if (made === null) return;
    setSaid(
      made.broken === 0
        ? `Made and looked through: ${made.path}`
        : `Made, but ${counted(made.broken, 'record in it is', 'records in it are')} not as recorded; no older backup was let go.`,
    );
    setList(await workbench.listBackups());
  };
  const check = async () => {
    setSaid('');
    setChecked(null);
    setChecking({ done: 0, total: 0 });
    const stop = new AbortController();
    stopCheck.current = stop;
    const found = await workbench.checkRecords(stop.signal, setChecking);
    stopCheck.current = null;
    setChecking(null);
    if (found !== null) setChecked(found);
    else if (stop.signal.aborted) setSaid('Stopped; not every record was looked at.');
  };
  const words =
    progress !== null
      ? progressWords(progress)
      : checking !== null
        ? checkWords(checking)
        : checked !== null
          ? checkedWords(checked)
          : said;
  return (
    <section className="meter-sheet" aria-label="The archive and its backups">
      <div className="meter-sheet__head">
        <h3>The archive and its backups</h3>
      </div>
      {folderWarning !== null && (
        <p className="said said--bad">
          <Mark verdict="fail" pointing="up" />
          <span>{`${capital(folderWarning)}.`}</span>
        </p>
      )}
      {list !== null && (
        <p>
          {backupWords(list, now())} The archive is {list.archivePath}, {size(list.archiveBytes)}.
        </p>
      )}
      <TextField className="field" value={folder} onChange={setFolder}>
        <Label>Folder for the next backup, a stick for example; empty for the usual one</Label>
        <Input />
      </TextField>
      <p role="status">{words}</p>
      {checking !== null && (
        <progress
          className="care__progress"
          aria-label="How far the check is"
          max={checking.total || undefined}
          value={checking.total === 0 ? undefined : Math.min(checking.done, checking.total)}
        />
      )}
      {checked !== null && <p className="quiet care__head">{headWords(checked)}</p>}
      <div className="panel__end">
        {checking === null ? (
          <PressButton onPress={check} isDisabled={busy === 'backups'}>
            Check every record
          </PressButton>
        ) : (
          <PressButton onPress={() => stopCheck.current?.abort()}>Stop the check</PressButton>
        )}
        <PressButton onPress={backUp} isDisabled={busy === 'backups'}>
          Back up now
        </PressButton>
      </div>
    </section>
  );
}
