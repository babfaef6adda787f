import { selectRecordsAt } from '../../state/select.ts';
import { useSelected } from '../../state/use-workbench.ts';
import { HistoryScreen } from './HistoryScreen.tsx';
import { PeriodScreen } from './PeriodScreen.tsx';
import { TableScreen } from './TableScreen.tsx';

/** All records: the table of every station, one station's history, or what a period came to. */
export function RecordsScreen() {
  const at = useSelected(selectRecordsAt);
  switch (at) {
    case 'closed':
      return null;
    case 'table':
      return <TableScreen />;
    case 'history':
      return <HistoryScreen />;
    case 'period':
      return <PeriodScreen />;
  }
}
