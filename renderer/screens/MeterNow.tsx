import type { ConnectedMeter } from '../../core/bridge/records.ts';
import { CalibrationPast } from '../parts/CalibrationPast.tsx';
import { Mark } from '../parts/Mark.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { calibrationWords } from '../state/calibration-words.ts';
import { useBench, useWorkbench } from '../state/use-workbench.ts';

/** The meter in hand, as it told its name, and whether its calibration still counts. */
export function MeterNow({ meter }: Readonly<{ meter: ConnectedMeter }>) {
  const { now } = useBench();
  const { putMeterAway } = useWorkbench();
  const { maker, model, serialNumber, firmware } = meter.identity;
  const calibration = calibrationWords(meter.identity, now());
  return (
    <div className="meter-now">
      <Mark verdict="pass" />
      <span>
        <strong>{[maker, model].join(' ').trim()}</strong>
        <small>
          {`serial number ${serialNumber || 'not told'}, firmware ${firmware || 'not told'}`}
          {calibration.at !== 'past' && meter.choice.kind === 'serial' && `, ${calibration.words}`}
        </small>
        <CalibrationPast calibration={calibration} />
      </span>
      <PressButton onPress={putMeterAway}>Put it away</PressButton>
    </div>
  );
}
