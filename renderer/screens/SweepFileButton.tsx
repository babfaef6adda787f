import { FileTrigger } from 'react-aria-components';
import { Glyph } from '../parts/Glyph.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { fileText } from '../read-file-text.ts';
import { selectVisitIsOpen } from '../state/select.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';

/** What a table is called that came from no file. */
const PASTED = 'pasted table';

export type SweepFileButtonProps = Readonly<{ size: 'visit' | 'usual' }>;

/** A sweep that was read elsewhere. Its file asks one question before it is taken in. */
export function SweepFileButton({ size }: SweepFileButtonProps) {
  const visitIsOpen = useSelected(selectVisitIsOpen);
  const { dialogOpened } = useActions();
  const take = async (files: FileList | null) => {
    const [file] = files ?? [];
    if (file !== undefined)
      dialogOpened({ open: 'import-sweep', fileName: file.name, text: await fileText(file) });
  };
  return (
    <>
      <FileTrigger
        acceptedFileTypes={['.csv', '.txt', '.tsv', '.md', 'text/csv', 'text/plain']}
        onSelect={take}
      >
        <PressButton size={size} isDisabled={!visitIsOpen}>
          {size === 'usual' && <Glyph name="open" />} {size === 'usual' ? 'Sweep file' : 'A sweep file'}
        </PressButton>
      </FileTrigger>
      <PressButton
        size={size}
        isDisabled={!visitIsOpen}
        onPress={() => dialogOpened({ open: 'import-sweep', fileName: PASTED, text: '' })}
      >
        {size === 'usual' ? 'Paste' : 'A pasted table'}
      </PressButton>
    </>
  );
}
