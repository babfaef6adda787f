import { FileTrigger } from 'react-aria-components';
import { PressButton } from '../parts/PressButton.tsx';
import { selectVisitIsOpen } from '../state/select.ts';
import { useSelected } from '../state/use-workbench.ts';
import { sweepFileTypes, useSweepImport } from './use-sweep-import.ts';

/** The ways to a sweep that need no meter, where nothing was read yet. */
export function SweepFileButton() {
  const visitIsOpen = useSelected(selectVisitIsOpen);
  const { file, paste } = useSweepImport();
  return (
    <>
      <FileTrigger acceptedFileTypes={sweepFileTypes} onSelect={file}>
        <PressButton size="visit" isDisabled={!visitIsOpen}>
          A sweep file
        </PressButton>
      </FileTrigger>
      <PressButton size="visit" isDisabled={!visitIsOpen} onPress={paste}>
        A pasted table
      </PressButton>
    </>
  );
}
