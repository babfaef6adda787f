import { useMemo, useState } from 'react';
import { Input, Label, Radio, RadioGroup } from 'react-aria-components';
import { checkPilot, choosePilots, type PilotCheck } from '../../core/gain-control/pilot.ts';
import { inspectSweep } from '../../core/inspect/all.ts';
import { rowsAtPort } from '../../core/line/port-level.ts';
import { setUpPlan } from '../../core/set-up/plan.ts';
import { type SetUpKind, setUpCautions, stepsOf } from '../../core/set-up/steps.ts';
import { celsiusFromFahrenheit, fahrenheitFromCelsius } from '../../core/units.ts';
import { NumberEntry } from '../parts/NumberEntry.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { counts, sweepsOf } from '../state/port-sweeps.ts';
import { selectBusy, selectLevelUnit, selectTemperatureUnit } from '../state/select.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';
import { PilotChoice } from './PilotChoice.tsx';
import { SetUpRules } from './SetUpRules.tsx';
import { StepsAhead } from './StepsAhead.tsx';

const kinds: readonly Readonly<{ kind: SetUpKind; name: string; about: string }>[] = [
  { kind: 'new-module', name: 'A new module goes in', about: 'control low, exchange, maximum, reserve' },
  { kind: 'check', name: 'Check the one that is there', about: 'nothing is exchanged' },
];
const isKind = (text: string): text is SetUpKind => kinds.some(({ kind }) => kind === text);
const plain = { maximumFractionDigits: 2, useGrouping: false };

/** The pilots that the newest sweep of the output shows: the station's own first, then what would be as good or better. */
function usePilots(open: OpenSheet, outputPort: string, pilotMhz: number | null): readonly PilotCheck[] {
  const { sheet, sweeps } = open;
  return useMemo(() => {
    const design = sheet.station.ports.find(({ name }) => name === outputPort)?.design;
    const newest = sweepsOf(sheet, outputPort).find((sweep) => counts(sweep) && sweep.state === 'complete');
    const sweep = newest === undefined ? undefined : sweeps[newest.sweepId];
    if (design === undefined || sweep === undefined)
      return pilotMhz === null
        ? []
        : [{ pilotMhz, levelDbmv: null, kind: null, besideDb: null, warnings: [] }];
    const rows = rowsAtPort(sweep.readings, sweep.summary.testPointLossDb);
    const inspected = inspectSweep(rows);
    const findings = inspected.ok ? inspected.value.findings : [];
    const own = pilotMhz === null ? [] : [checkPilot(rows, pilotMhz, design, findings)];
    return [...own, ...choosePilots(rows, design, findings).filter((one) => one.pilotMhz !== pilotMhz)];
  }, [sheet, sweeps, outputPort, pilotMhz]);
}

/** What is to be set up, and what it will be held against; the cautions stand before all of it. */
export function BeginSetUp({ open }: Readonly<{ open: OpenSheet }>) {
  const { station, openVisit } = open.sheet;
  const unit = useSelected(selectTemperatureUnit);
  const levelUnit = useSelected(selectLevelUnit);
  const busy = useSelected(selectBusy);
  const { beginSetUp } = useWorkbench();
  const unsaid = { topMhz: null, topCarrierMhz: null, pilotMhz: null, spanDb: null, ambientC: null };
  const known = setUpPlan(station, { kind: 'new-module', ...unsaid });
  const [kind, setKind] = useState<SetUpKind>('new-module');
  const [topMhz, setTopMhz] = useState(known.ok ? known.value.topMhz : Number.NaN);
  const [spanDb, setSpanDb] = useState(known.ok ? (known.value.spanDb ?? Number.NaN) : Number.NaN);
  const [ambientC, setAmbientC] = useState(openVisit?.ambientC ?? null);
  const [pilotMhz, setPilotMhz] = useState(known.ok ? known.value.pilotMhz : null);
  const outputPort = known.ok ? known.value.outputPort : '';
  const pilots = usePilots(open, outputPort, known.ok ? known.value.pilotMhz : null);
  const said = (value: number) => (Number.isFinite(value) ? value : null);
  if (!known.ok)
    return (
      <main className="plain-page">
        <h1>This station’s file is not enough for a set-up.</h1>
        <p>{`${known.where}: ${known.help}`}</p>
      </main>
    );
  return (
    <>
      <main className="set-up__intro">
        <h1>Set up the gain control</h1>
        <ul className="cautions set-up__cautions">
          {setUpCautions.map((caution, i) => (
            <li key={caution} className={i === setUpCautions.length - 1 ? 'set-up__rules' : undefined}>
              {caution}
            </li>
          ))}
        </ul>
        <div className="set-up__plan">
          <RadioGroup className="ways" value={kind} onChange={(text) => isKind(text) && setKind(text)}>
            <Label className="ways__label">The work</Label>
            {kinds.map((one) => (
              <Radio key={one.kind} value={one.kind} className="way">
                <span className="way__knob" />
                <span className="way__words">
                  <strong>{one.name}</strong>
                  <small>{`${stepsOf(one.kind).length} steps: ${one.about}`}</small>
                </span>
              </Radio>
            ))}
          </RadioGroup>
          <PilotChoice pilots={pilots} chosenMhz={pilotMhz} onChoose={setPilotMhz} unit={levelUnit} />
        </div>
        <StepsAhead kind={kind} />
      </main>
      <aside className="side" aria-label="What it is held against">
        <div className="set-up__fields">
          <NumberEntry
            className="field"
            value={topMhz}
            onChange={setTopMhz}
            minValue={50}
            maxValue={3000}
            formatOptions={plain}
          >
            <Label>Top, MHz</Label>
            <Input />
          </NumberEntry>
          <NumberEntry
            className="field"
            value={spanDb}
            onChange={setSpanDb}
            minValue={0}
            maxValue={200}
            formatOptions={plain}
          >
            <Label>Span, dB</Label>
            <Input placeholder="–" />
          </NumberEntry>
          <NumberEntry
            className="field"
            value={
              ambientC === null
                ? Number.NaN
                : Math.round(unit === 'C' ? ambientC : fahrenheitFromCelsius(ambientC))
            }
            onChange={(value) =>
              setAmbientC(
                Number.isFinite(value) ? (unit === 'C' ? value : celsiusFromFahrenheit(value)) : null,
              )
            }
          >
            <Label>{`Air, °${unit}`}</Label>
            <Input placeholder="–" />
          </NumberEntry>
        </div>
        <SetUpRules
          topMhz={said(topMhz)}
          ambientC={ambientC}
          spanDb={said(spanDb)}
          perDegreeC={station.span?.perDegreeC ?? null}
        />
        {ambientC === null && (
          <p className="quiet">
            Without the temperature of the air the day’s compensation can only be skipped.
          </p>
        )}
        <div className="acts">
          <PressButton
            rank="do"
            size="visit"
            isDisabled={busy === 'begin-set-up' || said(topMhz) === null}
            onPress={() =>
              beginSetUp({
                kind,
                topMhz: said(topMhz),
                topCarrierMhz: null,
                pilotMhz,
                spanDb: said(spanDb),
                ambientC,
              })
            }
          >
            Begin the set-up
          </PressButton>
        </div>
      </aside>
    </>
  );
}
