import { Label, Radio, RadioGroup } from 'react-aria-components';
import type { FoundPort } from '../../core/bridge/records.ts';
import { Mark } from './Mark.tsx';
import { PressButton } from './PressButton.tsx';

export const SIMULATED = ':simulated';
export const TYPED = ':typed';

export type MeterWaysProps = Readonly<{
  ports:
    | Readonly<{ at: 'unknown' }>
    | Readonly<{ at: 'looking' }>
    | Readonly<{ at: 'found'; ports: readonly FoundPort[]; problem: string | null }>;
  chosen: string;
  onChoose: (way: string) => void;
  onLookAgain: () => void;
}>;

/** Every way to a meter, the likely ports first. That none is there and that the list failed are different news. */
export function MeterWays({ ports, chosen, onChoose, onLookAgain }: MeterWaysProps) {
  const found =
    ports.at === 'found' ? [...ports.ports].sort((a, b) => Number(b.likely) - Number(a.likely)) : [];
  const way = (key: string, name: string, about: string) => (
    <Radio key={key} value={key} className="way">
      <span className="way__knob" />
      <span className="way__words">
        <strong>{name}</strong>
        <small>{about}</small>
      </span>
    </Radio>
  );
  return (
    <RadioGroup className="ways" value={chosen} onChange={onChoose}>
      <Label className="unseen">Which meter</Label>
      {way(SIMULATED, 'Simulated meter', 'plays the station, with what you plug in; no hardware needed')}
      {found.map((port) => way(port.path, port.path, port.label))}
      {way(TYPED, 'Another port', 'a path that you type')}
      <div className="ways__news" aria-live="polite">
        {(ports.at === 'looking' || ports.at === 'unknown') && <span>Looking for ports</span>}
        {ports.at === 'found' && ports.problem !== null && (
          <span>
            <Mark verdict="undecided" /> The list of ports may be incomplete: {ports.problem}
          </span>
        )}
        {ports.at === 'found' && ports.problem === null && ports.ports.length === 0 && (
          <span>No port found. Is the adapter plugged in?</span>
        )}
        {ports.at === 'found' && <PressButton onPress={onLookAgain}>Look again</PressButton>}
      </div>
    </RadioGroup>
  );
}
