import { Label, Radio, RadioGroup } from 'react-aria-components';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { PilotCheck } from '../../core/gain-control/pilot.ts';
import { level, mhz, signedDb } from '../format.ts';
import { howPilot } from '../how/gain-control.ts';
import { HowText } from '../parts/HowText.tsx';
import { Mark } from '../parts/Mark.tsx';

export type PilotChoiceProps = Readonly<{
  pilots: readonly PilotCheck[];
  chosenMhz: number | null;
  onChoose: (pilotMhz: number) => void;
  unit: LevelUnitName;
}>;

function about({ levelDbmv, besideDb, warnings }: PilotCheck, unit: LevelUnitName): string {
  if (warnings.length > 0) return warnings.map(({ words }) => words).join(' ');
  if (levelDbmv === null) return 'not read yet: the sweep as found will tell whether it is fit';
  const beside = besideDb === null ? '' : `, ${signedDb(besideDb)} beside its neighbours`;
  return `${level(levelDbmv, unit)}${beside}`;
}

/** Which carrier the control listens to, and whether it is fit for that. */
export const PilotChoice = ({ pilots, chosenMhz, onChoose, unit }: PilotChoiceProps) => {
  const chosen = pilots.find(({ pilotMhz }) => pilotMhz === chosenMhz);
  return (
    <RadioGroup
      className="ways"
      value={chosenMhz === null ? '' : String(chosenMhz)}
      onChange={(text) => onChoose(Number(text))}
    >
      <Label className="ways__label">The pilot</Label>
      {pilots.map((pilot, i) => (
        <Radio key={pilot.pilotMhz} value={String(pilot.pilotMhz)} className="way">
          <span className="way__knob" />
          <span className="way__words">
            <strong>
              {mhz(pilot.pilotMhz)}
              {i === 0 && ', as the station file says'}
              {pilot.warnings.length > 0 && (
                <span className="pilot__unfit">
                  {' '}
                  <Mark verdict="fail" pointing="up" /> not suitable
                </span>
              )}
            </strong>
            <small>{about(pilot, unit)}</small>
          </span>
        </Radio>
      ))}
      {chosen !== undefined && (
        <p className="quiet">
          <HowText how={howPilot(chosen, unit)} text={`How ${mhz(chosen.pilotMhz)} was judged`} />
        </p>
      )}
      {pilots.length === 0 && (
        <p className="quiet">The station file names no pilot, and no sweep shows one yet.</p>
      )}
    </RadioGroup>
  );
};
