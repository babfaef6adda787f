import { Button } from 'react-aria-components';
import { calibrationWords } from '../state/calibration-words.ts';
import type { Meter } from '../state/meter-slice.ts';
import { selectMeter } from '../state/select.ts';
import { useActions, useBench, useSelected } from '../state/use-workbench.ts';

const wordsOf = (meter: Meter): Readonly<{ name: string; state: string }> => {
  switch (meter.at) {
    case 'none':
      return { name: 'No meter', state: 'press to choose one' };
    case 'connecting':
      return { name: 'Connecting', state: 'asking for its name' };
    case 'connected':
      return {
        name: meter.meter.choice.kind === 'simulated' ? 'Simulated meter' : meter.meter.identity.model,
        state: meter.meter.choice.kind === 'simulated' ? 'ready' : `ready on ${meter.meter.choice.path}`,
      };
    case 'refused':
      return { name: 'No meter', state: 'it did not answer' };
    case 'lost':
      return { name: 'Meter lost', state: 'press to connect again' };
  }
};

/** Which meter is in hand, and whether it is there. */
export function MeterChip() {
  const meter = useSelected(selectMeter);
  const { dialogOpened } = useActions();
  const { now } = useBench();
  const { name, state: ready } = wordsOf(meter);
  const calibration = meter.at === 'connected' ? calibrationWords(meter.meter.identity, now()) : null;
  const state = calibration?.at === 'past' ? calibration.words : ready;
  return (
    <Button
      className={`meter-chip meter-chip--${meter.at}`}
      onPress={() => dialogOpened({ open: 'meter' })}
      aria-label={`Meter: ${name}, ${state}. Choose a meter.`}
    >
      <span className="meter-chip__lamp" />
      <span className="meter-chip__words">
        <strong>{name}</strong> <small>{state}</small>
      </span>
    </Button>
  );
}
