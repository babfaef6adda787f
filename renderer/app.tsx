import { I18nProvider } from 'react-aria-components';
import { writtenAs } from './format.ts';
import { KeptDialogs } from './screens/KeptDialogs.tsx';
import { LostLink } from './screens/LostLink.tsx';
import { MeterScreen } from './screens/MeterScreen.tsx';
import { NoticeBar } from './screens/NoticeBar.tsx';
import { RecordsScreen } from './screens/quality/RecordsScreen.tsx';
import { SkipLink } from './screens/SkipLink.tsx';
import { StationScreen } from './screens/StationScreen.tsx';
import { StationsScreen } from './screens/StationsScreen.tsx';
import { selectLink, selectRecordsAt, selectSheet } from './state/select.ts';
import { type Bench, BenchContext, useSelected } from './state/use-workbench.ts';

export type AppProps = Readonly<{ bench: Bench }>;

export const App = ({ bench }: AppProps) => (
  <I18nProvider locale={writtenAs().locale}>
    <BenchContext value={bench}>
      <Screen />
    </BenchContext>
  </I18nProvider>
);

/** Which screen: the stations, all records, or one station's sheet. A host that is gone covers both. */
function Screen() {
  const link = useSelected(selectLink);
  const sheet = useSelected(selectSheet);
  const recordsAt = useSelected(selectRecordsAt);
  if (link.at === 'closed') return <LostLink why={link.why} />;
  return (
    <>
      <SkipLink />
      <NoticeBar />
      {sheet.at !== 'none' && <StationScreen />}
      {sheet.at === 'none' && (recordsAt === 'closed' ? <StationsScreen /> : <RecordsScreen />)}
      <MeterScreen />
      <KeptDialogs />
    </>
  );
}
