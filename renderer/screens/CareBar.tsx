import { useState } from 'react';
import { Button } from 'react-aria-components';
import type { Care, HeldSweep } from '../../core/bridge/care-calls.ts';
import { counted, decimals } from '../format.ts';
import { Glyph } from '../parts/Glyph.tsx';
import { Mark } from '../parts/Mark.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { saveFileElsewhere } from '../save-file.ts';
import { selectBusy, selectCare } from '../state/select.ts';
import { sweepAsFile } from '../state/sweep-as-file.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';

const MB = 1_000_000;
const size = (bytes: number) => `${decimals(bytes / MB, 0)}\u00A0MB`;

/** What is not on the disk, of one sweep or several; never more than is so. */
export function heldWords(held: readonly HeldSweep[]): string {
  const [first] = held;
  if (first === undefined) return '';
  const inMemory = held.reduce((sum, one) => sum + one.inMemory, 0);
  const what = inMemory === 0 ? 'The end' : counted(inMemory, 'reading', 'readings');
  const of =
    held.length === 1 ? `${first.stationName}, ${first.portName},` : counted(held.length, 'sweep', 'sweeps');
  return `${what} of ${of} ${inMemory > 1 ? 'are' : 'is'} not on the disk: it takes no more.`;
}

/**
 * The disk takes no more: what is only in memory, and the two ways on; or that the room kept for this was given up. It
 * stays until the disk has room, because what is in memory is lost with the program.
 */
export function CareBar() {
  const care = useSelected(selectCare);
  if (care === null) return null;
  if (care.held.length > 0) return <Held held={care.held} />;
  return care.ballast === 'given-up' ? <GivenUp care={care} /> : null;
}

function Held({ held }: Readonly<{ held: readonly HeldSweep[] }>) {
  const { keepHeld, exportSweep } = useWorkbench();
  const { noticed } = useActions();
  const busy = useSelected(selectBusy);
  const [savedAs, setSavedAs] = useState<string | null>(null);
  const [whyNot, setWhyNot] = useState<string | null>(null);
  const tryAgain = async () => setWhyNot(await keepHeld());
  const saveAll = async () => {
    const saved: string[] = [];
    for (const { sweepId } of held) {
      const file = await exportSweep(sweepId);
      if (file === null) return;
      const made = sweepAsFile(file, 'exchange');
      if (!made.ok) {
        noticed({ tone: 'problem', text: 'The sweep was not saved.', help: `${made.where}: ${made.help}` });
        return;
      }
      if (await saveFileElsewhere(made.value.fileName, made.value.text)) saved.push(made.value.fileName);
    }
    if (saved.length > 0) setSavedAs(saved.join(', '));
  };
  return (
    <section className="notice notice--problem" aria-label="Not on the disk">
      <Mark verdict="fail" pointing="up" />
      <p>
        <strong>{heldWords(held)}</strong> {whyNot !== null && `Not yet: ${whyNot}. `}
        {savedAs === null
          ? 'Nothing is lost while the program runs. Make room, then try again.'
          : `Saved as ${savedAs}. It stays in memory too, until the disk takes it.`}
      </p>
      <PressButton onPress={tryAgain} isDisabled={busy === 'care'}>
        Try again
      </PressButton>
      <PressButton onPress={saveAll}>Save to another drive</PressButton>
    </section>
  );
}

function GivenUp({ care }: Readonly<{ care: Care }>) {
  const [isAway, setIsAway] = useState(false);
  if (isAway) return null;
  return (
    <section className="notice notice--problem" aria-label="The disk is full">
      <Mark verdict="undecided" pointing="up" />
      <p>
        <strong>The disk is full.</strong> {size(care.ballastBytes)} kept for this were given up, and
        everything read is on the disk. Make {size(care.neededBytes)} free before the next sweep.
      </p>
      <Button className="icon-button" aria-label="Put this message away" onPress={() => setIsAway(true)}>
        <Glyph name="close" />
      </Button>
    </section>
  );
}
