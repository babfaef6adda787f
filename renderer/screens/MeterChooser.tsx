import { useCallback, useEffect, useRef, useState } from 'react';
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
import type { MeterChoice } from '../../core/bridge/records.ts';
import { LastMeter, type LastMeterProps } from '../parts/LastMeter.tsx';
import { Mark } from '../parts/Mark.tsx';
import { MeterWays, SIMULATED, TYPED } from '../parts/MeterWays.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { selectLink, selectMeter, selectPorts } from '../state/select.ts';
import type { Profile } from '../state/ui-slice.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { EachChannel } from './EachChannel.tsx';

const LOOK_EVERY_MS = 2000;
const NO_PROFILES: readonly Profile[] = [];

/** Which meter: the simulated one, a port that was found, or a path typed by hand. */
export function MeterChooser() {
  const meter = useSelected(selectMeter);
  const ports = useSelected(selectPorts);
  const link = useSelected(selectLink);
  const { dialogDone } = useActions();
  const { findPorts, renewPorts, connectMeter, giveUpMeter, meterDesk } = useWorkbench();
  const profiles = link.at === 'open' ? link.profiles : NO_PROFILES;
  const [way, setWay] = useState(
    meter.at === 'connected' && meter.meter.choice.kind === 'serial' ? meter.meter.choice.path : SIMULATED,
  );
  const [path, setPath] = useState('');
  const [profile, setProfile] = useState(profiles[0]?.name ?? '');
  const [last, setLast] = useState<LastMeterProps['last'] | null>(null);
  const chosenByHand = useRef(false);
  const choose = (chosen: string) => {
    chosenByHand.current = true;
    setWay(chosen);
  };
  useEffect(() => {
    void findPorts();
  }, [findPorts]);
  // Nothing tells that an adapter was plugged in, so it is looked for; never while a meter is in hand, whose readings that slows.
  const looks = meter.at === 'none' || meter.at === 'refused' || meter.at === 'lost';
  useEffect(() => {
    if (!looks) return;
    const timer = setInterval(() => void renewPorts(), LOOK_EVERY_MS);
    return () => clearInterval(timer);
  }, [looks, renewPorts]);

  /** The meter that was used last lies ready wherever its adapter is, until a hand chooses. */
  const propose = useCallback(
    (found: LastMeterProps['last'] | null, paths: readonly string[]) => {
      setLast(found);
      if (found === null || chosenByHand.current) return;
      if (found.now === null || found.now.kind === 'simulated') return setWay(SIMULATED);
      const isListed = paths.includes(found.now.path);
      setWay(isListed ? found.now.path : TYPED);
      if (!isListed) setPath(found.now.path);
      const { profile: spoken } = found.now;
      if (profiles.some(({ name }) => name === spoken)) setProfile(spoken);
    },
    [profiles],
  );
  useEffect(() => {
    if (!looks || ports.at !== 'found') return undefined;
    let wanted = true;
    const paths = ports.ports.map((port) => port.path);
    void meterDesk.last().then((found) => wanted && propose(found, paths));
    return () => {
      wanted = false;
    };
  }, [looks, ports, meterDesk, propose]);

  const typed = way === TYPED;
  const choice: MeterChoice | null =
    way === SIMULATED
      ? { kind: 'simulated' }
      : typed && path.trim() === ''
        ? null
        : { kind: 'serial', path: typed ? path.trim() : way, profile };
  const connect = async () => {
    if (choice !== null && (await connectMeter(choice))) dialogDone('meter');
  };
  const inUse =
    meter.at === 'connected' &&
    choice !== null &&
    JSON.stringify(meter.meter.choice) === JSON.stringify(choice);
  const help = meter.at === 'refused' || meter.at === 'lost' ? meter.help : null;

  return (
    <>
      {last !== null && <LastMeter last={last} />}
      <MeterWays ports={ports} chosen={way} onChoose={choose} onLookAgain={findPorts} />
      {way !== SIMULATED && (
        <div className="meter-port">
          {typed && (
            <TextField className="field" value={path} onChange={setPath} autoFocus={chosenByHand.current}>
              <Label>Path of the port</Label>
              <Input placeholder="/dev/ttyUSB0 or COM3" spellCheck="false" />
            </TextField>
          )}
          {profiles.length > 0 && (
            <Select
              className="field"
              selectedKey={profile}
              onSelectionChange={(key) => {
                if (key === null) return;
                chosenByHand.current = true;
                setProfile(String(key));
              }}
            >
              <Label>How it speaks</Label>
              <Button className="select-button">
                <SelectValue />
              </Button>
              <Popover className="popover">
                <ListBox className="options">
                  {profiles.map(({ name, title }) => (
                    <ListBoxItem key={name} id={name} className="option">
                      {title}
                    </ListBoxItem>
                  ))}
                </ListBox>
              </Popover>
            </Select>
          )}
        </div>
      )}
      <EachChannel />
      {meter.at === 'connecting' && meter.waits !== null && (
        <p className="meter-waits" role="status">
          <Mark verdict="undecided" /> {meter.waits}
        </p>
      )}
      <p className="panel__help" role="alert">
        {help !== null && (
          <>
            <Mark verdict="fail" pointing="up" /> {help}
          </>
        )}
      </p>
      <div className="panel__end">
        {meter.at === 'connecting' && <PressButton onPress={giveUpMeter}>Stop trying</PressButton>}
        <PressButton
          rank="do"
          size="visit"
          onPress={connect}
          isDisabled={choice === null || inUse || meter.at === 'connecting'}
        >
          {meter.at === 'connecting' ? 'Asking for its name' : inUse ? 'In use' : 'Connect'}
        </PressButton>
      </div>
    </>
  );
}
