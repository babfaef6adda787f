import { celsiusFromFahrenheit, fahrenheitFromCelsius } from '../../../core/units.ts';
import { Figure } from '../../parts/Figure.tsx';
import { PressButton } from '../../parts/PressButton.tsx';
import { Segments } from '../../parts/Segments.tsx';
import type { GainControlDraft } from '../../state/design/draft.ts';
import { selectTemperatureUnit } from '../../state/select.ts';
import { useSelected } from '../../state/use-workbench.ts';

export type DesignGainControlProps = Readonly<{
  gainControl: GainControlDraft;
  onChange: (gainControl: GainControlDraft | null, about: string) => void;
}>;

/** What holds the level over the year, and how far it reaches. */
export function DesignGainControl({ gainControl, onChange }: DesignGainControlProps) {
  const unit = useSelected(selectTemperatureUnit);
  const say =
    <K extends keyof GainControlDraft>(key: K) =>
    (value: GainControlDraft[K]) =>
      onChange({ ...gainControl, [key]: value }, `gain control ${key}`);
  const { setAtC } = gainControl;
  return (
    <>
      <Segments
        label="How it works"
        chosen={gainControl.mode}
        onChoose={say('mode')}
        options={[
          { key: 'auto', text: 'By its pilot' },
          { key: 'thermal', text: 'Thermal' },
          { key: 'manual', text: 'By hand' },
        ]}
      />
      <div className="design__pair">
        <Figure name="Up by" unit="dB" value={gainControl.upDb} from={0} to={60} onSay={say('upDb')} />
        <Figure name="down by" unit="dB" value={gainControl.downDb} from={0} to={60} onSay={say('downDb')} />
      </div>
      <Figure
        name="Acts in full at"
        about="the top frequency"
        unit="MHz"
        value={gainControl.topMhz}
        from={1}
        to={3000}
        onSay={say('topMhz')}
      />
      <Figure
        name="Was set at"
        about="temperature of the air then"
        unit={unit === 'F' ? '°F' : '°C'}
        value={setAtC === null ? null : unit === 'F' ? fahrenheitFromCelsius(setAtC) : setAtC}
        digits={1}
        onSay={(said) =>
          say('setAtC')(said === null ? null : unit === 'F' ? celsiusFromFahrenheit(said) : said)
        }
      />
      <Figure
        name="Pilot"
        about="empty where it has none"
        unit="MHz"
        value={gainControl.pilotMhz}
        from={1}
        to={3000}
        onSay={say('pilotMhz')}
      />
      {gainControl.mode === 'thermal' && (
        <Figure
          name="Follows the cable to"
          about="1 is wholly; its part of the demand"
          unit=""
          value={gainControl.thermalTracking}
          from={0}
          to={2}
          onSay={say('thermalTracking')}
        />
      )}
      <PressButton rank="quiet" onPress={() => onChange(null, 'gain control')}>
        It has no gain control
      </PressButton>
    </>
  );
}
