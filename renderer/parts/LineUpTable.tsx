import { Cell, Column, Row, type Selection, Table, TableBody, TableHeader } from 'react-aria-components';
import type { LineUpEntry } from '../../core/channels/line-up.ts';
import { bareMhz, signedDecimal } from '../format.ts';

export type LineUpTableProps = Readonly<{
  entries: readonly LineUpEntry[];
  carries: (entry: LineUpEntry) => string;
  doubts: ReadonlyMap<number, readonly string[]>;
  chosenMhz: ReadonlySet<number>;
  onChoose: (chosenMhz: ReadonlySet<number>) => void;
}>;

/** The channels of a line-up. Press or Space chooses rows, Shift with the arrows a stretch; what is chosen is changed beside it. */
export const LineUpTable = ({ entries, carries, doubts, chosenMhz, onChoose }: LineUpTableProps) => (
  <div className="line-up__table">
    <Table
      aria-label="Channels of the line-up"
      className="numbers"
      selectionMode="multiple"
      selectionBehavior="toggle"
      selectedKeys={new Set<number>(chosenMhz)}
      onSelectionChange={(keys: Selection) =>
        onChoose(
          keys === 'all'
            ? new Set(entries.map(({ frequencyMhz }) => frequencyMhz))
            : new Set([...keys].map(Number)),
        )
      }
    >
      <TableHeader>
        <Column isRowHeader>Channel</Column>
        <Column>MHz</Column>
        <Column>Width, MHz</Column>
        <Column>Carries</Column>
        <Column>Offset, dB</Column>
        <Column>In doubt</Column>
      </TableHeader>
      <TableBody>
        {entries.map((entry) => (
          <Row key={entry.frequencyMhz} id={entry.frequencyMhz} textValue={entry.channelLabel}>
            <Cell>{entry.channelLabel}</Cell>
            <Cell>{bareMhz(entry.frequencyMhz)}</Cell>
            <Cell>{entry.widthMhz === 0 ? 'tone' : bareMhz(entry.widthMhz)}</Cell>
            <Cell>{carries(entry)}</Cell>
            <Cell>{signedDecimal(entry.offsetDb)}</Cell>
            <Cell>{doubts.has(entry.frequencyMhz) ? '?\u00A0guessed' : ''}</Cell>
          </Row>
        ))}
      </TableBody>
    </Table>
  </div>
);
