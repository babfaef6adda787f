import { Input, Label, TextField } from 'react-aria-components';
import type { LineUpEntry } from '../../core/channels/line-up.ts';
import type { SignalKind } from '../../core/line/level-row.ts';
import { counted } from '../format.ts';
import { PressButton } from './PressButton.tsx';
import { Quantity } from './Quantity.tsx';
import { Segments } from './Segments.tsx';

const kinds: readonly Readonly<{ key: SignalKind; text: string }>[] = [
  { key: 'analog', text: 'Analog' },
  { key: 'qam', text: 'QAM' },
  { key: 'ofdm', text: 'OFDM' },
  { key: 'cw', text: 'Pilot' },
];
const orders = ['64', '256', '1024', '4096'] as const;

export type EntryEditorProps = Readonly<{
  /** The chosen entries, one or more. */
  entries: readonly LineUpEntry[];
  doubts: readonly string[];
  onChange: (
    change: Partial<
      Pick<LineUpEntry, 'channelLabel' | 'frequencyMhz' | 'kind' | 'offsetDb' | 'widthMhz'> & {
        qamOrder: number;
      }
    >,
  ) => void;
  onRemove: () => void;
}>;

/** What all have in common, or null. */
function shared<T>(values: readonly T[]): T | null {
  const [first] = values;
  return first !== undefined && values.every((value) => value === first) ? first : null;
}

/** Changes one channel or many at once: who knows that forty channels are 256-QAM says so once. */
export function EntryEditor({ entries, doubts, onChange, onRemove }: EntryEditorProps) {
  const [only] = entries;
  const kind = shared(entries.map((entry) => entry.kind));
  const order = shared(entries.map((entry) => entry.qamOrder ?? 0));
  const offsetDb = shared(entries.map((entry) => entry.offsetDb));
  const widthMhz = shared(entries.map((entry) => entry.widthMhz));
  return (
    <div className="entry">
      <p className="entry__title">
        {entries.length === 1 && only !== undefined
          ? `Channel ${only.channelLabel}`
          : `${counted(entries.length, 'channel', 'channels')} at once`}
      </p>
      {doubts.length > 0 && (
        <p className="entry__doubt">
          <strong>In doubt:</strong> {doubts[0]}
          {doubts.length > 1 ? '. And the like for the others.' : ''}
        </p>
      )}
      <Segments
        label="What it carries"
        options={kinds}
        chosen={kind}
        onChoose={(to) => onChange({ kind: to })}
      />
      {kind === 'qam' && (
        <Segments
          label="QAM order"
          options={orders.map((key) => ({ key, text: `${key}-QAM` }))}
          chosen={orders.find((key) => key === String(order)) ?? null}
          onChoose={(to) => onChange({ qamOrder: Number(to) })}
        />
      )}
      <Quantity
        name="Offset from the analog design line"
        about={offsetDb === null ? 'the chosen channels differ' : 'what it is carried above or below it'}
        unit="dB"
        value={offsetDb ?? Number.NaN}
        from={-40}
        to={40}
        step={0.5}
        digits={1}
        onChange={(to) => onChange({ offsetDb: to })}
      />
      {entries.every((entry) => entry.kind !== 'cw') && (
        <Quantity
          name="Width"
          about={
            widthMhz === null
              ? 'the chosen channels differ'
              : kind === 'ofdm'
                ? 'of the whole block; its level is that of 6 MHz'
                : 'of the channel'
          }
          unit="MHz"
          value={widthMhz ?? Number.NaN}
          from={0.1}
          to={2000}
          onChange={(to) => onChange({ widthMhz: to })}
        />
      )}
      {entries.length === 1 && only !== undefined && (
        <>
          <Quantity
            name="Frequency"
            unit="MHz"
            value={only.frequencyMhz}
            from={1}
            to={3000}
            onChange={(to) => onChange({ frequencyMhz: to })}
          />
          <TextField
            className="quantity"
            value={only.channelLabel}
            maxLength={40}
            onChange={(to) => to.trim() !== '' && onChange({ channelLabel: to })}
          >
            <Label className="quantity__name">Name</Label>
            <span className="quantity__field quantity__field--text">
              <Input />
            </span>
          </TextField>
        </>
      )}
      <PressButton rank="quiet" onPress={onRemove}>
        {entries.length === 1 ? 'Take it out of the line-up' : 'Take them out of the line-up'}
      </PressButton>
    </div>
  );
}
