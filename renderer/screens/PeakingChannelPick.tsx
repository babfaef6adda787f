import { Input, Label, ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { bareMhz } from '../format.ts';
import { NumberEntry } from '../parts/NumberEntry.tsx';
import type { PeakingChannel } from '../state/peaking-channels.ts';

export type PeakingChannelPickProps = Readonly<{
  channels: readonly PeakingChannel[];
  chosen: string;
  ownMhz: number | null;
  onChoose: (key: string) => void;
  onOwn: (frequencyMhz: number) => void;
}>;

/** The pilot, the ends of the band, or any frequency. */
export const PeakingChannelPick = ({
  channels,
  chosen,
  ownMhz,
  onChoose,
  onOwn,
}: PeakingChannelPickProps) => (
  <div className="channel-pick">
    <ToggleButtonGroup
      className="segments"
      aria-label="Channel"
      selectionMode="single"
      selectedKeys={[chosen]}
      onSelectionChange={(keys) => {
        const [key] = keys;
        if (key !== undefined) onChoose(String(key));
      }}
    >
      {channels.map(({ key, name, frequencyMhz }) => (
        <ToggleButton key={key} id={key}>
          {`${name} ${bareMhz(frequencyMhz)}`}
        </ToggleButton>
      ))}
    </ToggleButtonGroup>
    <NumberEntry
      className="field field--line"
      value={ownMhz ?? Number.NaN}
      minValue={1}
      maxValue={3000}
      onChange={(mhz) => Number.isFinite(mhz) && onOwn(mhz)}
      formatOptions={{ maximumFractionDigits: 2, useGrouping: false }}
    >
      <Label className="unseen">Another frequency, MHz</Label>
      <Input placeholder="other" />
      <span aria-hidden="true">MHz</span>
    </NumberEntry>
  </div>
);
