import { Segments } from '../parts/Segments.tsx';
import { selectSettings } from '../state/select.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';

/** What levels, temperatures and lengths are shown in, on every screen at once. */
export function UnitChoice() {
  const { settings } = useSelected(selectSettings);
  const { changeSettings } = useWorkbench();
  const choose = (change: Partial<typeof settings>) => void changeSettings({ ...settings, ...change });
  return (
    <>
      <p className="units__name">Levels</p>
      <Segments
        label="Levels shown in"
        chosen={settings.levelUnit}
        onChoose={(levelUnit) => choose({ levelUnit })}
        options={[
          { key: 'dBmV', text: 'dBmV' },
          { key: 'dBuV', text: 'dB\u00B5V' },
          { key: 'dBm75', text: 'dBm, 75 ohm' },
          { key: 'dBm50', text: 'dBm, 50 ohm' },
          { key: 'mV', text: 'mV' },
        ]}
      />
      <p className="units__name">Temperatures</p>
      <Segments
        label="Temperatures shown in"
        chosen={settings.temperatureUnit}
        onChoose={(temperatureUnit) => choose({ temperatureUnit })}
        options={[
          { key: 'C', text: '\u00B0C' },
          { key: 'F', text: '\u00B0F' },
        ]}
      />
      <p className="units__name">Lengths</p>
      <Segments
        label="Lengths shown in"
        chosen={settings.lengthUnit}
        onChoose={(lengthUnit) => choose({ lengthUnit })}
        options={[
          { key: 'm', text: 'metres' },
          { key: 'ft', text: 'feet' },
        ]}
      />
    </>
  );
}
