import { selectRecordsAt } from '../../state/select.ts';
import { useSelected } from '../../state/use-workbench.ts';
import { TransferScreen } from '../transfer/TransferScreen.tsx';
import { HistoryScreen } from './HistoryScreen.tsx';
import { PeriodScreen } from './PeriodScreen.tsx';
import { TableScreen } from './TableScreen.tsx';

/** All records: the table of every station, one station's history, what a period came to, or what goes between laptops. */
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
    case 'transfer':
      return <TransferScreen />;
  }
}
