import { selectDialog } from '../state/select.ts';
import { useSelected } from '../state/use-workbench.ts';
import { BeginVisit } from './BeginVisit.tsx';
import { EndVisit } from './EndVisit.tsx';

/** The dialogs that every screen of a station can open. */
export function PlaceDialogs() {
  const dialog = useSelected(selectDialog);
  if (dialog.open === 'begin-visit') return <BeginVisit />;
  if (dialog.open === 'end-visit') return <EndVisit />;
  return null;
}
