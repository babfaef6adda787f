import { useMemo } from 'react';
import { followed, limitsOf } from '../../../core/drift/figures.ts';
import { rowsAtPort } from '../../../core/line/port-level.ts';
import { ControlPicture } from '../../charts/ControlPicture.tsx';
import { HistoryPicture } from '../../charts/HistoryPicture.tsx';
import { counted } from '../../format.ts';
import { howControlChart } from '../../how/drift.ts';
import { Guard } from '../../parts/Guard.tsx';
import { HowText } from '../../parts/HowText.tsx';
import { PressButton } from '../../parts/PressButton.tsx';
import { Segments } from '../../parts/Segments.tsx';
import type { History, ShownFigure } from '../../state/quality-slice.ts';
import {
  controlPicture,
  type FigurePicture,
  type HistoryView,
  reservePicture,
  viewHistory,
} from '../../state/quality-view.ts';
import { dayWords, figureNames } from '../../state/quality-words.ts';
import {
  selectFigureShown,
  selectHistory,
  selectLevelUnit,
  selectTemperatureUnit,
} from '../../state/select.ts';
import { useActions, useSelected, useWorkbench } from '../../state/use-workbench.ts';
import { ComparePanel } from './ComparePanel.tsx';
import { HistorySide } from './HistorySide.tsx';
import { RecordsBar } from './RecordsBar.tsx';

export type OpenHistory = Extract<History, { at: 'open' }>;

/** One station's history: its sweeps over each other, each figure over the years, and what that comes to. */
export function HistoryScreen() {
  const history = useSelected(selectHistory);
  const { recordsWent } = useActions();
  const { openHistory } = useWorkbench();
  if (history.at === 'open') return <OpenHistoryScreen open={history} />;
  return (
    <div className="records">
      <RecordsBar name="History" backTo="all records" onBack={() => recordsWent('table')} />
      <main className="plain-page" aria-busy={history.at === 'reading'}>
        {history.at === 'failed' && (
          <>
            <h1>This history could not be read.</h1>
            <p>{history.help}</p>
            <PressButton size="visit" onPress={() => void openHistory(history.stationId, null)}>
              Try again
            </PressButton>
          </>
        )}
      </main>
    </div>
  );
}

function OpenHistoryScreen({ open }: Readonly<{ open: OpenHistory }>) {
  const { history, compared, sweeps } = open;
  const { recordsWent } = useActions();
  const { openHistory, openStation } = useWorkbench();
  const view = useMemo(() => viewHistory(history), [history]);
  const { id, name } = history.station;
  const [earlier, later] = compared === null ? [] : compared.map((sweepId) => sweeps[sweepId]);
  return (
    <div className="records history">
      <RecordsBar name={name} backTo="all records" onBack={() => recordsWent('table')}>
        {history.portNames.length > 1 && (
          <Segments
            label="Port"
            options={history.portNames.map((key) => ({ key, text: key }))}
            chosen={history.portName}
            onChoose={(portName) => openHistory(id, portName)}
          />
        )}
        <PressButton onPress={() => openStation(id)}>Open the station</PressButton>
      </RecordsBar>
      {view === null || history.sweeps.length === 0 ? (
        <main className="records__empty">
          <h1>{`${name} was never read as found or as left.`}</h1>
          <p>
            Open the station, begin a visit and read a port that has a design. The history begins with that
            sweep.
          </p>
          <PressButton rank="do" size="visit" onPress={() => openStation(id)}>
            Open the station
          </PressButton>
        </main>
      ) : (
        <>
          <main className="history__main">
            {earlier !== undefined && later !== undefined ? (
              <ComparePanel history={history} port={view.port} earlier={earlier} later={later} />
            ) : (
              <Overlay open={open} view={view} />
            )}
            <FigureChart open={open} view={view} />
          </main>
          <HistorySide open={open} view={view} />
        </>
      )}
    </div>
  );
}

type PartProps = Readonly<{ open: OpenHistory; view: HistoryView }>;

/** The newest sweeps over each other. */
function Overlay({ open: { history, sweeps }, view }: PartProps) {
  const unit = useSelected(selectLevelUnit);
  const drawn = useMemo(
    () =>
      history.sweeps.flatMap((one) => {
        const sweep = sweeps[one.sweepId];
        return sweep === undefined
          ? []
          : [
              {
                sweepId: one.sweepId,
                atMs: Date.parse(one.at),
                label: dayWords(Date.parse(one.at)),
                rows: rowsAtPort(sweep.readings, sweep.summary.testPointLossDb),
              },
            ];
      }),
    [history, sweeps],
  );
  const words =
    drawn.length === 1
      ? 'One sweep. The next one will lie over it.'
      : `The newest ${counted(drawn.length, 'sweep', 'sweeps')}: the newest in full weight, older ones thinner.`;
  return (
    <section className="history__part" aria-label="Sweeps over each other">
      <Guard
        fallback={<p className="history__words">The sweeps cannot be drawn.</p>}
        resetKey={`${history.station.id} ${history.portName}`}
      >
        <HistoryPicture
          title={`Sweeps over each other, ${history.portName}`}
          about={history.station.name}
          sweeps={drawn}
          design={view.port.design ?? null}
          unit={unit}
          tools={<p className="history__words">{words}</p>}
        />
      </Guard>
    </section>
  );
}

const CHART_LINES = 'mean \u00B1 2.66 mean moving ranges';

/** What the lines over the years are, and where they come from. */
function figureWords(of: ShownFigure, view: HistoryView, picture: FigurePicture | null): string {
  if (of === 'reserve')
    return 'Left at each set-up, from what the rule asked for on that day. Each sets it anew: no control chart.';
  const from = of === 'flatness' ? '' : 'From the design. ';
  if (picture?.chart == null) return `${from}A control chart needs three sweeps.`;
  const provisional = view.drift?.figures.find((one) => one.of === of)?.chart?.isProvisional ?? false;
  return `${from}Individuals chart after Shewhart: ${CHART_LINES}.${provisional ? ' Provisional below 20 sweeps.' : ''}`;
}

/** The same, and where there is a control chart, how its lines come about. */
function FigureWords({ of, view, words }: Readonly<{ of: ShownFigure; view: HistoryView; words: string }>) {
  const chart = view.drift?.figures.find((one) => one.of === of)?.chart ?? null;
  const { design } = view.port;
  if (of === 'reserve' || chart === null || design === undefined) return words;
  const figure = { of, name: figureNames[of], limits: limitsOf(of, design) };
  return <HowText how={howControlChart(figure, chart)} text={words} figure={CHART_LINES} />;
}

/** One figure over the years. */
function FigureChart({ open: { history }, view }: PartProps) {
  const chosen = useSelected(selectFigureShown);
  const warmth = useSelected(selectTemperatureUnit);
  const { figureChosen } = useActions();
  const { openSweepOf } = useWorkbench();
  const withReserve = view.reserve.values.length > 0;
  // Another station's choice may be one that this one has nothing for.
  const of = chosen === 'reserve' && !withReserve ? 'level' : chosen;
  const picture = useMemo(
    () => (of === 'reserve' ? reservePicture(view, history) : controlPicture(view, of, warmth)),
    [view, history, of, warmth],
  );
  const figures: readonly ShownFigure[] = withReserve ? [...followed, 'reserve'] : followed;
  const choose = (
    <Segments
      label="Figure"
      options={figures.map((key) => ({ key, text: figureNames[key] }))}
      chosen={of}
      onChoose={figureChosen}
    />
  );
  return (
    <section className="history__part history__part--years" aria-label="One figure over the years">
      {picture === null ? (
        choose
      ) : (
        <Guard
          fallback={<p className="history__words">This figure cannot be drawn.</p>}
          resetKey={`${history.station.id} ${of}`}
        >
          <ControlPicture
            key={of}
            {...picture}
            figure={figureNames[of]}
            title={`${figureNames[of]} over the years, dB`}
            about={`${history.station.name}, ${history.portName}`}
            onOpen={(sweepId) => openSweepOf(history.station.id, history.portName, sweepId)}
            tools={choose}
          />
        </Guard>
      )}
      <p className="history__words">
        <FigureWords of={of} view={view} words={figureWords(of, view, picture)} />
      </p>
    </section>
  );
}
