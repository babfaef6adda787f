import { useState } from 'react';
import { Input, Label, TextArea, TextField } from 'react-aria-components';
import type { Purpose, SweepSummary } from '../../core/bridge/records.ts';
import type { Port } from '../../core/files/station.ts';
import { capital, clock, counted } from '../format.ts';
import { Panel } from '../parts/Panel.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { Quantity } from '../parts/Quantity.tsx';
import { Segments } from '../parts/Segments.tsx';
import { useUnsaved } from '../parts/unsaved.ts';
import { selectBusy } from '../state/select.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { DialogNotice } from './DialogNotice.tsx';
import { purposeWords } from './Picture.tsx';

export type AmendSweepProps = Readonly<{
  summary: SweepSummary;
  /** Of the station as its design stands now. */
  ports: readonly Pick<Port, 'name' | 'testPointLossDb'>[];
  operator: string;
}>;

/** What is said of a sweep afterwards. Its readings stay as they were read; what is said of them is a record of its own. */
export function AmendSweep(props: AmendSweepProps) {
  const { dialogOpened } = useActions();
  const { purpose, startedAt, readingCount } = props.summary;
  const title = `${capital(purposeWords[purpose])}, ${clock(startedAt)}, ${counted(readingCount, 'channel', 'channels')}`;
  return (
    <Panel title={title} width="wide" isOpen onClose={() => dialogOpened({ open: 'none' })}>
      <AmendForm {...props} />
    </Panel>
  );
}

const ways = [
  { key: 'correct', text: 'Correct what was noted' },
  { key: 'void', text: 'Declare it void' },
] as const;
const purposes: readonly Readonly<{ key: Purpose; text: string }>[] = [
  { key: 'as-found', text: 'As found' },
  { key: 'as-left', text: 'As left' },
  { key: 'check', text: 'Check' },
];
const about = {
  correct:
    'The readings stay. A new record says what was noted wrongly with them; it is judged, and the old one stays in the log beside it.',
  void: 'The sweep stays in the archive and in the log, struck through with the reason. Nothing is judged by it any more.',
} as const;

function AmendForm({ summary, ports, operator: known }: AmendSweepProps) {
  const busy = useSelected(selectBusy);
  const { voidSweep, correctSweep } = useWorkbench();
  const [way, setWay] = useState<'correct' | 'void'>('correct');
  const [reason, setReason] = useState('');
  const [operator, setOperator] = useState(known);
  const [testPointLossDb, setLossDb] = useState(summary.testPointLossDb);
  const [portName, setPortName] = useState(summary.portName);
  const [purpose, setPurpose] = useState(summary.purpose);
  const [ambientC, setAmbientC] = useState(summary.ambientC);
  const changes =
    testPointLossDb !== summary.testPointLossDb ||
    portName !== summary.portName ||
    purpose !== summary.purpose ||
    ambientC !== summary.ambientC;
  const lossAt = (name: string) => ports.find((port) => port.name === name)?.testPointLossDb;
  /** Another port has another test point: its loss goes along unless somebody said otherwise. */
  const choosePort = (name: string) => {
    if (testPointLossDb === lossAt(portName)) setLossDb(lossAt(name) ?? testPointLossDb);
    setPortName(name);
  };
  const said = { sweepId: summary.sweepId, reason: reason.trim(), operator: operator.trim() };
  const missing =
    way === 'correct' && !changes
      ? 'change what was noted wrongly'
      : said.reason === ''
        ? 'say why'
        : said.operator === ''
          ? 'say who says so'
          : null;
  const keep = () =>
    way === 'void'
      ? voidSweep(said)
      : correctSweep({ ...said, testPointLossDb, portName, purpose, ambientC });
  useUnsaved({ isChanged: said.reason !== '' || changes, trouble: missing, keep });
  return (
    <>
      <Segments label="What is wrong" options={ways} chosen={way} onChoose={setWay} />
      <p>{about[way]}</p>
      {way === 'correct' && (
        <div className="amend">
          {ports.length > 1 && (
            <div className="amend__purpose">
              <span className="quantity__name">Read at</span>
              <Segments
                label="Read at"
                options={ports.map(({ name }) => ({ key: name, text: capital(name) }))}
                chosen={portName}
                onChoose={choosePort}
              />
            </div>
          )}
          <Quantity
            name="Loss of the test point"
            unit="dB"
            value={testPointLossDb}
            from={0}
            to={60}
            onChange={setLossDb}
          />
          <Quantity
            name="Outdoors when it was read"
            unit="°C"
            value={ambientC ?? Number.NaN}
            from={-90}
            to={90}
            onChange={setAmbientC}
          />
          <div className="amend__purpose">
            <span className="quantity__name">Read</span>
            <Segments label="Read" options={purposes} chosen={purpose} onChoose={setPurpose} />
          </div>
        </div>
      )}
      <TextField className="field" value={reason} onChange={setReason} maxLength={400} isRequired>
        <Label>Why</Label>
        <TextArea rows={1} placeholder="The lead was at the other test point." />
      </TextField>
      <TextField className="field" value={operator} onChange={setOperator} maxLength={120} isRequired>
        <Label>Who says so</Label>
        <Input />
      </TextField>
      <DialogNotice />
      <div className="panel__end">
        {missing !== null && <small>{capital(missing)}.</small>}
        <PressButton
          rank="do"
          size="visit"
          isDisabled={missing !== null || busy === 'amend-sweep'}
          onPress={() => void keep()}
        >
          {way === 'void' ? 'Declare it void' : 'Add the correction'}
        </PressButton>
      </div>
    </>
  );
}
