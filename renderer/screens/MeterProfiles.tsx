import { useCallback, useEffect, useState } from 'react';
import {
  Button,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
  Select,
  SelectValue,
  TextArea,
  TextField,
} from 'react-aria-components';
import type { Output } from '../../core/bridge/contract.ts';
import { counted } from '../format.ts';
import { Mark } from '../parts/Mark.tsx';
import { numbered } from '../parts/numbered.ts';
import { PressButton } from '../parts/PressButton.tsx';
import { Quantity } from '../parts/Quantity.tsx';
import { selectBusy, selectLink, selectMeter } from '../state/select.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';
import { DialogNotice } from './DialogNotice.tsx';

type Check = Output<'profiles.check'>;
type Listed = Output<'profiles.list'>;

/** A profile as its text, tried on a port question by question before it is kept. */
export function MeterProfiles() {
  const { meterDesk } = useWorkbench();
  const link = useSelected(selectLink);
  const busy = useSelected(selectBusy);
  const meter = useSelected(selectMeter);
  const inHand =
    meter.at === 'connected' && meter.meter.choice.kind === 'serial' ? meter.meter.choice.path : '';
  const [begunFrom, setBegunFrom] = useState<string | null>(null);
  const [text, setText] = useState('');
  const [path, setPath] = useState(inHand);
  const [atMhz, setAtMhz] = useState(300);
  const [check, setCheck] = useState<Check | null>(null);
  const [kept, setKept] = useState<string | null>(null);
  const [listed, setListed] = useState<Listed | null>(null);
  const list = useCallback(async () => setListed(await meterDesk.listProfiles()), [meterDesk]);
  useEffect(() => {
    void list();
  }, [list]);

  const begin = async (name: string) => {
    setBegunFrom(name);
    const read = await meterDesk.readProfile(name);
    if (read === null) return;
    setText(read.text);
    setCheck(null);
    setKept(null);
  };
  const tryIt = async () => setCheck(await meterDesk.checkProfile({ path: path.trim(), text, atMhz }));
  const keep = async () => {
    const name = await meterDesk.saveProfile(text);
    setKept(name);
    if (name !== null) await list();
  };
  return (
    <>
      <div className="profiles">
        <div className="profiles__edit">
          <Select
            className="field"
            selectedKey={begunFrom}
            placeholder="Choose one"
            onSelectionChange={(key) => key !== null && begin(String(key))}
          >
            <Label>Begin from</Label>
            <Button className="select-button">
              <SelectValue />
            </Button>
            <Popover className="popover">
              <ListBox className="options">
                {(link.at === 'open' ? link.profiles : []).map(({ name, title }) => (
                  <ListBoxItem key={name} id={name} className="option">
                    {title}
                  </ListBoxItem>
                ))}
              </ListBox>
            </Popover>
          </Select>
          <TextField className="field profiles__text" value={text} onChange={setText}>
            <Label>The profile</Label>
            <TextArea spellCheck="false" rows={12} />
          </TextField>
        </div>
        <div className="profiles__check">
          <div className="profiles__on">
            <TextField className="field" value={path} onChange={setPath}>
              <Label>Try it on</Label>
              <Input placeholder="/dev/ttyUSB0 or COM3" spellCheck="false" />
            </TextField>
            <Quantity name="At" unit="MHz" value={atMhz} from={1} to={3000} onChange={setAtMhz} />
          </div>
          <PressButton
            isDisabled={text.trim() === '' || path.trim() === '' || busy === 'check-profile'}
            onPress={tryIt}
          >
            {busy === 'check-profile' ? 'Asking the meter' : 'Check it'}
          </PressButton>
          <div aria-live="polite">{check === null ? <NotChecked /> : <Checked check={check} />}</div>
        </div>
      </div>
      {listed !== null && <Broken listed={listed} />}
      <DialogNotice />
      <div className="panel__end">
        {kept !== null && (
          <p>
            <Mark verdict="pass" /> {`Kept as ${kept}; it can be chosen for a port now.`}
          </p>
        )}
        <PressButton
          rank="do"
          size="visit"
          isDisabled={text.trim() === '' || busy === 'profile'}
          onPress={keep}
        >
          Keep this profile
        </PressButton>
      </div>
    </>
  );
}

const NotChecked = () => (
  <p className="quiet">
    The check puts every question once and shows what came back. A meter in use is put away first; connect it
    again afterwards. One that comes with the program is kept under another name.
  </p>
);

/** Files of a shop that are no profiles: nobody can choose them, and here is why. */
const Broken = ({ listed: { broken, folder } }: Readonly<{ listed: Listed }>) =>
  broken.length === 0 ? null : (
    <section aria-label="Files that are no profiles">
      <p>
        <Mark verdict="undecided" /> {`No profile, in ${folder}:`}
      </p>
      <ul>
        {broken.map(({ fileName, where, help }) => (
          <li key={fileName}>
            <code>{where.startsWith(fileName) ? where : `${fileName}, ${where}`}</code>: {help}
          </li>
        ))}
      </ul>
    </section>
  );

const Checked = ({ check }: Readonly<{ check: Check }>) => (
  <>
    <p>
      <Mark verdict={check.problemCount === 0 ? 'pass' : 'fail'} />{' '}
      {check.problemCount === 0
        ? 'Every answer reads as the profile says.'
        : counted(check.problemCount, 'problem', 'problems')}
    </p>
    <ol className="exchanges">
      {numbered(check.exchanges).map(({ key, of: exchange }) => (
        <li key={key}>
          <small>{exchange.step}</small>
          <code>{exchange.said}</code>
          {exchange.heard !== null && <code className="exchanges__heard">{exchange.heard}</code>}
          {exchange.understood !== null && (
            <small>
              {Object.entries(exchange.understood)
                .map(([name, value]) => `${name} ${value}`)
                .join(', ')}
            </small>
          )}
          {exchange.problem !== null && (
            <b>
              <Mark verdict="fail" pointing="up" /> {exchange.problem}
            </b>
          )}
        </li>
      ))}
    </ol>
  </>
);
