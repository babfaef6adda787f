import { selectDialog } from '../state/select.ts';
import { useSelected } from '../state/use-workbench.ts';
import { SettingsPanel } from './SettingsPanel.tsx';
import { TruckPanel } from './TruckPanel.tsx';

/** The dialogs that belong to no station. */
export function KeptDialogs() {
  const dialog = useSelected(selectDialog);
  if (dialog.open === 'settings') return <SettingsPanel />;
  if (dialog.open === 'truck') return <TruckPanel />;
  return null;
}
