import { Button, Dialog, DialogTrigger, Popover } from 'react-aria-components';
import { levelWord } from '../format.ts';
import { selectLengthUnit, selectLevelUnit, selectTemperatureUnit } from '../state/select.ts';
import { useSelected } from '../state/use-workbench.ts';
import { UnitChoice } from './UnitChoice.tsx';

/** The units that hold now; one press lays all of them open, and the next one changes them on every screen. */
export function UnitsButton() {
  const levelUnit = useSelected(selectLevelUnit);
  const temperatureUnit = useSelected(selectTemperatureUnit);
  const lengthUnit = useSelected(selectLengthUnit);
  const shown = `${levelWord(levelUnit)}, \u00B0${temperatureUnit}, ${lengthUnit}`;
  return (
    <DialogTrigger>
      <Button className="units-button" aria-label={`Units: ${shown}. Show in other ones.`}>
        <strong>{levelWord(levelUnit)}</strong> <small>{`\u00B0${temperatureUnit}, ${lengthUnit}`}</small>
      </Button>
      <Popover className="popover popover--units" placement="bottom end">
        <Dialog className="units units--popover" aria-label="Show in">
          <UnitChoice />
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
