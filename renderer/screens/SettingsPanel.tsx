import { useState } from 'react';
import type { Settings } from '../../core/bridge/settings-calls.ts';
import { MeterUncertainty } from '../../core/files/meter-uncertainty.ts';
import { celsiusFromFahrenheit, fahrenheitFromCelsius, perDegreeCFromPerDegreeF } from '../../core/units.ts';
import { howGoodTo } from '../how/meter.ts';
import { HowText } from '../parts/HowText.tsx';
import { Panel } from '../parts/Panel.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { Quantity } from '../parts/Quantity.tsx';
import { Segments } from '../parts/Segments.tsx';
import { UndoButtons } from '../parts/UndoButtons.tsx';
import { useLeave, useUnsaved } from '../parts/unsaved.ts';
import { selectBusy, selectMeter, selectNotes, selectSettings, selectStationSheet } from '../state/select.ts';
import { useUndo } from '../state/use-undo.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { ArchiveCare } from './ArchiveCare.tsx';
import { DialogNotice } from './DialogNotice.tsx';
import { TextSizeChoice } from './TextSizeChoice.tsx';
import { UnitChoice } from './UnitChoice.tsx';

const ANY = ':any';
const STATION = ':station';
type NumberName = keyof MeterUncertainty;
const numbers: readonly Readonly<{
  key: NumberName;
  name: string;
  about: string;
  unit: string;
  to: number;
}>[] = [
  { key: 'accuracyDb', name: 'Accuracy', about: 'all channels alike', unit: '\u00B1 dB', to: 20 },
  { key: 'acrossBandDb', name: 'End against end', about: 'of the band', unit: '\u00B1 dB', to: 20 },
  { key: 'repeatabilityDb', name: 'Repeatability', about: 'standard deviation', unit: 'dB', to: 20 },
  { key: 'testPointToleranceDb', name: 'Test point', about: 'against its label', unit: '\u00B1 dB', to: 20 },
  { key: 'temperatureDbPerC', name: 'Drift', about: 'away from calibration', unit: 'dB/\u00B0', to: 1 },
  { key: 'calibratedAtC', name: 'Calibrated at', about: 'says its certificate', unit: '\u00B0', to: 85 },
];

/** A number of the sheet as it is shown, and back: temperatures in the unit that was chosen. */
const shown = (key: NumberName, value: number, unit: Settings['temperatureUnit']): number => {
  if (unit === 'C') return value;
  if (key === 'calibratedAtC') return fahrenheitFromCelsius(value);
  return key === 'temperatureDbPerC' ? value / perDegreeCFromPerDegreeF(1) : value;
};
const kept = (key: NumberName, value: number, unit: Settings['temperatureUnit']): number => {
  if (unit === 'C') return value;
  if (key === 'calibratedAtC') return celsiusFromFahrenheit(value);
  return key === 'temperatureDbPerC' ? perDegreeCFromPerDegreeF(value) : value;
};

/** Units once for every screen, and what the meters are good to. */
export function SettingsPanel() {
  const { settings } = useSelected(selectSettings);
  const { dialogOpened } = useActions();
  return (
    <Panel title="Settings" isOpen onClose={() => dialogOpened({ open: 'none' })} width="widest">
      <div className="settings">
        <div className="settings__side">
          <section className="units" aria-label="How things are shown">
            <UnitChoice />
            <TextSizeChoice />
          </section>
          <ArchiveCare />
        </div>
        <MeterNumbers settings={settings} />
      </div>
      <DialogNotice />
    </Panel>
  );
}

/**
 * The numbers of a meter's data sheet. The nearer word goes first: this station's, then the model's own, then those for
 * any meter.
 */
function MeterNumbers({ settings }: Readonly<{ settings: Settings }>) {
  const meter = useSelected(selectMeter);
  const busy = useSelected(selectBusy);
  const station = useSelected(selectStationSheet)?.station ?? null;
  const stored = useSelected(selectNotes);
  const { changeSettings, changeNotes } = useWorkbench();
  const here = station !== null && stored?.stationId === station.id ? stored.notes?.meter : undefined;
  const inHand = meter.at === 'connected' ? meter.meter.identity.model : null;
  const models = [...new Set([...(inHand === null ? [] : [inHand]), ...Object.keys(settings.sheets)])];
  const ownOf = (key: string): MeterUncertainty | undefined =>
    key === ANY ? settings.meter : key === STATION ? here : settings.sheets[key];
  const [chosen, setChosen] = useState(here === undefined ? (models[0] ?? ANY) : STATION);
  const own = ownOf(chosen);
  const held = own ?? settings.meter;
  const { draft, say: setDraft, beginAnew, undo, redo } = useUndo<MeterUncertainty>(held);
  const turnTo = (key: string) => {
    setChosen(key);
    beginAnew(ownOf(key) ?? settings.meter);
  };
  const degree = settings.temperatureUnit;
  const changed = numbers.some(({ key }) => draft[key] !== held[key]);
  const goodTo = howGoodTo(draft);
  const keep = () => {
    if (chosen === STATION) return changeNotes({ meter: draft });
    return changeSettings(
      chosen === ANY
        ? { ...settings, meter: draft }
        : { ...settings, sheets: { ...settings.sheets, [chosen]: draft } },
    );
  };
  const leave = useLeave();
  useUnsaved({ isChanged: changed, trouble: null, keep });
  const forget = async () => {
    const { [chosen]: _gone, ...sheets } = settings.sheets;
    const forgotten =
      chosen === STATION
        ? await changeNotes({ meter: undefined })
        : await changeSettings({ ...settings, sheets });
    if (forgotten) beginAnew(settings.meter);
  };
  return (
    <section className="meter-sheet" aria-label="What the meter is good to">
      <div className="meter-sheet__head">
        <h3>What the meter is good to</h3>
        <Segments
          label="Of which meter"
          chosen={chosen}
          onChoose={(key) => leave(() => turnTo(key))}
          options={[
            ...(station === null ? [] : [{ key: STATION, text: 'At this station' }]),
            ...models.map((model) => ({ key: model, text: model })),
            { key: ANY, text: models.length === 0 ? 'Any meter' : 'Any other' },
          ]}
        />
      </div>
      <div className="meter-sheet__numbers">
        {numbers.map(({ key, name, about, unit, to }) => (
          <Quantity
            key={key}
            name={name}
            about={about}
            unit={unit.replace('\u00B0', `\u00B0${degree}`)}
            value={shown(key, draft[key], degree)}
            from={key === 'calibratedAtC' ? -40 : 0}
            to={shown(key, to, degree)}
            onChange={(value) => setDraft({ ...draft, [key]: kept(key, value, degree) })}
          />
        ))}
      </div>
      <p>
        With these, one channel’s level is good to{' '}
        <strong>
          <HowText how={goodTo} text={goodTo.value} />
        </strong>
        , 95 of 100 times, where nobody wrote the temperature down.
      </p>
      <p className="quiet">
        {own === undefined ? 'Nothing of its own is kept: these are the numbers for any meter. ' : ''}
        The first numbers are common practice, no published source; the data sheet and the calibration
        certificate go before them. Every change stays in the archive.
      </p>
      <div className="panel__end">
        <UndoButtons undo={undo} redo={redo} />
        {chosen !== ANY && own !== undefined && (
          <PressButton rank="quiet" onPress={forget}>
            Forget these
          </PressButton>
        )}
        <PressButton onPress={() => setDraft(MeterUncertainty.parse({}))}>Common practice</PressButton>
        <PressButton
          rank="do"
          onPress={keep}
          isDisabled={busy === 'settings' || busy === 'notes' || (!changed && own !== undefined)}
        >
          Keep these numbers
        </PressButton>
      </div>
    </section>
  );
}
