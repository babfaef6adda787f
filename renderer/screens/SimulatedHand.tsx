import { useEffect } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import type { Station } from '../../core/files/station.ts';
import { ControlDial } from '../parts/ControlDial.tsx';
import { Glyph } from '../parts/Glyph.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { selectSimulatedModule } from '../state/select.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';

/** The panel looks at the module this often: in automatic it moves by itself. */
const LOOK_EVERY_MS = 700;
/** What a new module of the demo reaches: ten decibels in all, so that its range test can pass. */
const NEW_MODULE = { upDb: 5, downDb: 5 };
const turns = [-3, -1, -0.2, 0.2, 1, 3] as const;
const isMode = (key: unknown): key is 'manual' | 'auto' => key === 'manual' || key === 'auto';

/** The hand at the amplifier that nobody has: only in the demo, so that a newcomer can go through all of it. */
export function SimulatedHand({ station }: Readonly<{ station: Station }>) {
  const module = useSelected(selectSimulatedModule);
  const { moveHand, readModule } = useWorkbench();
  const { id } = station;
  useEffect(() => {
    void readModule(id);
    const timer = setInterval(() => void readModule(id), LOOK_EVERY_MS);
    return () => clearInterval(timer);
  }, [id, readModule]);
  if (module === null) return null;
  const turn = (turnDb: number) => moveHand(id, { act: 'turn', turnDb });
  return (
    <section className="hand" aria-label="Demo: the hand at the simulated amplifier">
      <p className="hand__title">
        <strong>Demo</strong> the hand at the simulated amplifier
      </p>
      <div className="hand__row">
        <ControlDial
          controlDb={module.controlDb}
          lowestDb={module.lowestDb}
          highestDb={module.highestDb}
          atEnd={module.handAtEnd}
        />
        <div className="hand__switches">
          <ToggleButtonGroup
            className="segments"
            aria-label="The module is in"
            selectionMode="single"
            disallowEmptySelection
            selectedKeys={[module.mode]}
            onSelectionChange={(keys) => {
              const [key] = keys;
              if (isMode(key)) void moveHand(id, { act: 'mode', mode: key });
            }}
          >
            <ToggleButton id="manual">Manual</ToggleButton>
            <ToggleButton id="auto">Auto</ToggleButton>
          </ToggleButtonGroup>
          <PressButton onPress={() => moveHand(id, { act: 'exchange', ...NEW_MODULE })}>
            Exchange module
          </PressButton>
        </div>
      </div>
      <fieldset className="hand__turns" aria-label="Turn the control">
        <PressButton onPress={() => turn(-60)} aria-label="Turn down to the end">
          <Glyph name="to-low-end" />
        </PressButton>
        {turns.map((db) => (
          <PressButton
            key={db}
            onPress={() => turn(db)}
            aria-label={`Turn ${db < 0 ? 'down' : 'up'} by ${Math.abs(db)} dB`}
          >
            {db < 0 ? `\u2212${-db}` : `+${db}`}
          </PressButton>
        ))}
        <PressButton onPress={() => turn(60)} aria-label="Turn up to the end">
          <Glyph name="to-high-end" />
        </PressButton>
      </fieldset>
    </section>
  );
}
