import { useMemo } from 'react';
import { selectNotes, selectSettings, selectTruck } from './select.ts';
import type { JudgedBy } from './sheet-view.ts';
import { useSelected } from './use-workbench.ts';

/** What the sheet of a station is judged by now; the same object until one of its parts changes. */
export function useJudgedBy(stationId: string): JudgedBy {
  const { settings } = useSelected(selectSettings);
  const { truck } = useSelected(selectTruck);
  const stored = useSelected(selectNotes);
  const notes = stored?.stationId === stationId ? stored.notes : null;
  return useMemo(() => ({ settings, notes, truck }), [settings, notes, truck]);
}
