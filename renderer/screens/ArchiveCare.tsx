import { useEffect, useState } from 'react';
import { Input, Label, TextField } from 'react-aria-components';
import { counted, day, decimals } from '../format.ts';
import { PressButton } from '../parts/PressButton.tsx';
import type { BackupList, BackupProgress, Checked } from '../state/backup-commands.ts';
import { selectBusy } from '../state/select.ts';
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

const progressWords = ({ what, done, total }: BackupProgress): string =>
  `${what === 'copying' ? 'Copying' : 'Looking the copy through'}: ${total === 0 ? 0 : Math.floor((100 * done) / total)}\u00A0%`;

const checkedWords = ({ records, sweeps, broken }: Checked): string =>
  broken.length === 0
    ? `${counted(records, 'record', 'records')} with ${counted(sweeps, 'sweep', 'sweeps')}: each is as it was recorded. This shows what was changed, not that nothing could be.`
    : `${counted(broken.length, 'record is', 'records are')} not as recorded. The first: ${broken[0]?.words ?? ''}`;

/** Where the records are, whether they are what was recorded, and the copies of them. */
export function ArchiveCare() {
  const { workbench, now } = useBench();
  const busy = useSelected(selectBusy);
  const [list, setList] = useState<BackupList | null>(null);
  const [folder, setFolder] = useState('');
  const [progress, setProgress] = useState<BackupProgress | null>(null);
  const [said, setSaid] = useState('');
  useEffect(() => {
    void workbench.listBackups().then(setList);
  }, [workbench]);

  const backUp = async () => {
    setSaid('');
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
    const checked = await workbench.checkRecords();
    if (checked !== null) setSaid(checkedWords(checked));
  };
  return (
    <section className="meter-sheet" aria-label="The archive and its backups">
      <div className="meter-sheet__head">
        <h3>The archive and its backups</h3>
      </div>
      {list !== null && (
        <p>
          {backupWords(list, now())} The archive is {list.archivePath}, {size(list.archiveBytes)}.
        </p>
      )}
      <TextField className="field" value={folder} onChange={setFolder}>
        <Label>Folder for the next backup, a stick for example; empty for the usual one</Label>
        <Input />
      </TextField>
      <p role="status">{progress === null ? said : progressWords(progress)}</p>
      <div className="panel__end">
        <PressButton onPress={check} isDisabled={busy === 'backups'}>
          Check every record
        </PressButton>
        <PressButton onPress={backUp} isDisabled={busy === 'backups'}>
          Back up now
        </PressButton>
      </div>
    </section>
  );
}
