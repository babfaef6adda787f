import { FileTrigger, Input, Label, ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { climateOfRecords, readClimate } from '../../core/files/climate.ts';
import type { Station } from '../../core/files/station.ts';
import type { ControlMode } from '../../core/season/plan.ts';
import {
  celsiusFromFahrenheit,
  differenceCFromF,
  differenceFFromC,
  fahrenheitFromCelsius,
} from '../../core/units.ts';
import { capital, counted, type TemperatureUnit } from '../format.ts';
import { Glyph } from '../parts/Glyph.tsx';
import { NumberEntry } from '../parts/NumberEntry.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { modeWords } from '../state/season-words.ts';
import { selectSeasonMode, selectSunOffsetC, selectTemperatureUnit, selectWeather } from '../state/select.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';
import { WatchPick } from './WatchPick.tsx';

const modes: readonly ControlMode[] = ['manual', 'thermal', 'auto'];
const whole = { maximumFractionDigits: 0 };

type FieldProps = Readonly<{
  label: string;
  valueC: number;
  unit: TemperatureUnit;
  isOffset?: boolean;
  isDisabled?: boolean;
  onSay: (valueC: number) => void;
}>;

function Degrees({ label, valueC, unit, isOffset = false, isDisabled = false, onSay }: FieldProps) {
  const shown = unit === 'C' ? valueC : isOffset ? differenceFFromC(valueC) : fahrenheitFromCelsius(valueC);
  const back = (value: number) =>
    unit === 'C' ? value : isOffset ? differenceCFromF(value) : celsiusFromFahrenheit(value);
  return (
    <NumberEntry
      className="field field--line degrees"
      value={Math.round(shown)}
      formatOptions={whole}
      isDisabled={isDisabled}
      onChange={(value) => Number.isFinite(value) && onSay(back(value))}
    >
      <Label>{label}</Label>
      <Input />
      <span aria-hidden="true">{`°${unit}`}</span>
    </NumberEntry>
  );
}

export type SeasonWeatherProps = Readonly<{ station: Station; face: 'year' | 'watch' }>;

/** What the year is taken to be: the control's mode, the weather of the place, and what the sun adds. */
export function SeasonWeather({ station, face }: SeasonWeatherProps) {
  const weather = useSelected(selectWeather);
  const sunOffsetC = useSelected(selectSunOffsetC);
  const mode = useSelected(selectSeasonMode) ?? station.gainControl?.mode ?? 'auto';
  const unit = useSelected(selectTemperatureUnit);
  const { weatherSaid, sunSaid, seasonModeChosen, seasonFaceChosen, noticed } = useActions();
  const { coldestC, hottestC } = weather.climate;

  const say = (coldC: number, hotC: number) => {
    const climate = climateOfRecords(coldC, hotC);
    if (climate.ok) weatherSaid(climate.value, null);
    else noticed({ tone: 'problem', text: `${climate.where}.`, help: climate.help });
  };
  const open = async (file: File) => {
    const climate = readClimate(await file.text(), file.name);
    if (!climate.ok) {
      noticed({
        tone: 'problem',
        text: `${file.name} was not taken in.`,
        help: `${climate.where}: ${climate.help}`,
      });
      return;
    }
    weatherSaid(climate.value, file.name);
    const gaps = climate.value.withoutReading.length;
    noticed(
      gaps === 0
        ? null
        : {
            tone: 'news',
            text: `${counted(gaps, 'day', 'days')} of ${file.name} left out.`,
            help: 'A day needs both its minimum and its maximum.',
          },
    );
  };
  const weatherOf = (
    <>
      <ToggleButtonGroup
        className="segments"
        aria-label="The gain control is"
        selectionMode="single"
        disallowEmptySelection
        selectedKeys={[mode]}
        onSelectionChange={(keys) => {
          const [key] = keys;
          const chosen = modes.find((one) => one === key);
          if (chosen !== undefined) seasonModeChosen(chosen);
        }}
      >
        {modes.map((one) => (
          <ToggleButton key={one} id={one}>
            {capital(modeWords[one])}
          </ToggleButton>
        ))}
      </ToggleButtonGroup>
      {weather.fileName === null ? (
        <>
          <Degrees
            label="Record cold"
            valueC={coldestC}
            unit={unit}
            onSay={(coldC) => say(coldC, hottestC)}
          />
          <Degrees label="hot" valueC={hottestC} unit={unit} onSay={(hotC) => say(coldestC, hotC)} />
        </>
      ) : (
        <p className="season__file">
          <strong>{weather.fileName}</strong>
          <small>{counted(weather.climate.days.length, 'day', 'days')}</small>
          <PressButton rank="quiet" onPress={() => say(coldestC, hottestC)}>
            Two numbers instead
          </PressButton>
        </p>
      )}
      {station.span?.sky === 'aerial' && (
        <Degrees
          label="Sun adds"
          valueC={sunOffsetC}
          unit={unit}
          isOffset
          onSay={(c) => sunSaid(Math.max(0, c))}
        />
      )}
      <FileTrigger
        acceptedFileTypes={['.csv', 'text/csv']}
        onSelect={(files) => {
          const file = files?.item(0);
          if (file !== null && file !== undefined) void open(file);
        }}
      >
        <PressButton>
          <Glyph name="open" /> Daily temperatures
        </PressButton>
      </FileTrigger>
    </>
  );
  return (
    <section className="season__weather" aria-label="What the season is told for">
      <ToggleButtonGroup
        className="segments"
        aria-label="Show"
        selectionMode="single"
        disallowEmptySelection
        selectedKeys={[face]}
        onSelectionChange={(keys) => {
          const [key] = keys;
          if (key === 'year' || key === 'watch') seasonFaceChosen(key);
        }}
      >
        <ToggleButton id="year">The year</ToggleButton>
        <ToggleButton id="watch">Watch</ToggleButton>
      </ToggleButtonGroup>
      {face === 'year' ? weatherOf : <WatchPick station={station} />}
    </section>
  );
}
