import { fileText } from '../read-file-text.ts';
import { useActions } from '../state/use-workbench.ts';

/** What a table is called that came from no file. */
const PASTED = 'pasted table';
export const sweepFileTypes: readonly string[] = [
  '.csv',
  '.txt',
  '.tsv',
  '.md',
  '.json',
  '.log',
  'text/csv',
  'text/plain',
];

/** A sweep that was read elsewhere: its file, or a table that is pasted, asks one question before it is taken in. */
export function useSweepImport() {
  const { dialogOpened } = useActions();
  return {
    async file(files: FileList | null) {
      const [file] = files ?? [];
      if (file !== undefined)
        dialogOpened({ open: 'import-sweep', fileName: file.name, ...(await fileText(file)) });
    },
    paste: () =>
      dialogOpened({ open: 'import-sweep', fileName: PASTED, text: '', note: null, encoding: null }),
  };
}
