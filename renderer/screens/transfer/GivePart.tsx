import { useState } from 'react';
import {
  Button,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
  Select,
  SelectValue,
  TextField,
} from 'react-aria-components';
import type { StationRow } from '../../../core/bridge/records.ts';
import { PressButton } from '../../parts/PressButton.tsx';
import { Segments } from '../../parts/Segments.tsx';
import { dayBegins } from '../../state/quality-commands.ts';
import type { GiveOrder } from '../../state/transfer-commands.ts';

export type GivePartProps = Readonly<{
  stations: readonly StationRow[];
  /** Where the shared files are; null while none is named. */
  folder: string | null;
  isBusy: boolean;
  /** The day that it is, as a date field holds it, and the one six days before. */
  week: readonly [string, string];
  onGive: (order: GiveOrder) => void;
}>;

const kinds = [
  { key: 'everything', text: 'Everything' },
  { key: 'days', text: 'Some days' },
  { key: 'station', text: 'One station' },
] as const;

/** What is given, and where it goes. */
export function GivePart({ stations, folder, isBusy, week, onGive }: GivePartProps) {
  const [kind, setKind] = useState<(typeof kinds)[number]['key']>('everything');
  const [[from, to], setDays] = useState(week);
  const [stationId, setStation] = useState(stations[0]?.stationId ?? '');
  const begin = dayBegins(from, 0);
  const end = dayBegins(to, 1);
  const days =
    begin !== null && end !== null && begin < end
      ? { fromMs: Date.parse(begin), toMs: Date.parse(end) }
      : null;
  const what: GiveOrder['what'] | null =
    kind === 'everything'
      ? { kind: 'everything' }
      : kind === 'station'
        ? stationId === ''
          ? null
          : { kind: 'station', stationId }
        : days === null
          ? null
          : { kind: 'period', ...days };
  const give = (to: string | null) => what !== null && onGive({ what, folder: to });
  return (
    <section className="transfer__part" aria-label="Give">
      <h2>Give</h2>
      <p>One file with this laptop's records, and with those that it took in.</p>
      <Segments label="What is given" options={kinds} chosen={kind} onChoose={setKind} />
      {kind === 'days' && (
        <div className="transfer__days">
          <DayField label="From" value={from} onChange={(day) => setDays([day, to])} />
          <DayField label="to" value={to} onChange={(day) => setDays([from, day])} />
        </div>
      )}
      {kind === 'days' && days === null && <p role="status">Say two days, the first not after the last.</p>}
      {kind === 'station' && (
        <Select
          className="field transfer__station"
          selectedKey={stationId}
          onSelectionChange={(key) => key !== null && setStation(String(key))}
        >
          <Label>Station</Label>
          <Button className="select-button">
            <SelectValue />
          </Button>
          <Popover className="popover">
            <ListBox className="options">
              {stations.map((station) => (
                <ListBoxItem key={station.stationId} id={station.stationId} className="option">
                  {station.name}
                </ListBoxItem>
              ))}
            </ListBox>
          </Popover>
        </Select>
      )}
      <div className="transfer__ways">
        <PressButton
          size="visit"
          isDisabled={isBusy || what === null || folder === null}
          onPress={() => give(folder)}
        >
          Put into the folder
        </PressButton>
        <PressButton size="visit" isDisabled={isBusy || what === null} onPress={() => give(null)}>
          Save as a file
        </PressButton>
      </div>
    </section>
  );
}

type DayFieldProps = Readonly<{ label: string; value: string; onChange: (day: string) => void }>;
const DayField = ({ label, value, onChange }: DayFieldProps) => (
  <TextField className="field field--line period__day" type="date" value={value} onChange={onChange}>
    <Label>{label}</Label>
    <Input />
  </TextField>
);
