import { useCallback } from 'react';
import { I18nProvider } from 'react-aria-components';
import { type Copied, CopiedContext } from './charts/copied.ts';
import { writtenAs } from './format.ts';
import { AskFirst } from './parts/AskFirst.tsx';
import { ExplainContext } from './parts/explain.ts';
import { Guard } from './parts/Guard.tsx';
import { DesignScreen } from './screens/design/DesignScreen.tsx';
import { GlobalKeys } from './screens/GlobalKeys.tsx';
import { HelpPanel } from './screens/HelpPanel.tsx';
import { KeptDialogs } from './screens/KeptDialogs.tsx';
import { LostLink } from './screens/LostLink.tsx';
import { MeterScreen } from './screens/MeterScreen.tsx';
import { NoticeBar } from './screens/NoticeBar.tsx';
import { RecordsScreen } from './screens/quality/RecordsScreen.tsx';
import { ScreenFault } from './screens/ScreenFault.tsx';
import { SearchPanel } from './screens/SearchPanel.tsx';
import { SkipLink } from './screens/SkipLink.tsx';
import { StationScreen } from './screens/StationScreen.tsx';
import { StationsScreen } from './screens/StationsScreen.tsx';
import { TourStrip } from './screens/TourStrip.tsx';
import { copiedNotice } from './state/copied-notice.ts';
import {
  selectDesignAt,
  selectLink,
  selectPlace,
  selectRecordsAt,
  selectSearchIsOpen,
  selectSheet,
} from './state/select.ts';
import { type Bench, BenchContext, useActions, useSelected } from './state/use-workbench.ts';

export type AppProps = Readonly<{ bench: Bench }>;

export const App = ({ bench }: AppProps) => (
  <I18nProvider locale={writtenAs().locale}>
    <BenchContext value={bench}>
      <Screen />
    </BenchContext>
  </I18nProvider>
);

/** What is over every screen, and the screen. A host that is gone covers all of it. */
function Screen() {
  const link = useSelected(selectLink);
  const searchIsOpen = useSelected(selectSearchIsOpen);
  const { helpOpened, noticed } = useActions();
  const explain = useCallback((term: string) => helpOpened('terms', term), [helpOpened]);
  const copied = useCallback((what: Copied) => noticed(copiedNotice(what)), [noticed]);
  if (link.at === 'closed') return <LostLink why={link.why} />;
  return (
    <ExplainContext value={explain}>
      <CopiedContext value={copied}>
        <AskFirst>
          <SkipLink />
          <GlobalKeys />
          <NoticeBar />
          <TourStrip />
          <Place />
          <MeterScreen />
          <KeptDialogs />
          {searchIsOpen && <SearchPanel />}
          <HelpPanel />
        </AskFirst>
      </CopiedContext>
    </ExplainContext>
  );
}

/** Where one is: a station that is being described, one station's sheet, all records, or the stations. */
function Place() {
  const designAt = useSelected(selectDesignAt);
  const sheet = useSelected(selectSheet);
  const place = useSelected(selectPlace);
  const recordsAt = useSelected(selectRecordsAt);
  const sheetKey = sheet.at === 'open' ? `${sheet.sheet.station.id} ${sheet.portName} ${place}` : sheet.at;
  return (
    <Guard
      resetKey={`${designAt.at} ${sheetKey} ${recordsAt}`}
      fallback={(fault) => <ScreenFault fault={fault} />}
    >
      {screenAt(designAt.at, sheet.at, recordsAt)}
    </Guard>
  );
}

function screenAt(designAt: string, sheetAt: string, recordsAt: string) {
  if (designAt !== 'closed') return <DesignScreen />;
  if (sheetAt !== 'none') return <StationScreen />;
  return recordsAt === 'closed' ? <StationsScreen /> : <RecordsScreen />;
}
