import { Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue } from 'react-aria-components';
import type { WatchSummary } from '../../core/bridge/watch-calls.ts';
import type { Station } from '../../core/files/station.ts';
import { clock, counted, day } from '../format.ts';
import { selectWatching } from '../state/select.ts';
import { useBench, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { stateWords } from './WatchSide.tsx';

/** "today 09:12, 5 rounds, complete": the clock always, since two watches may begin on one day. */
function watchWords(watch: WatchSummary, now: string): string {
  const on = day(watch.startedAt, now);
  const at = on.startsWith('today') ? on : `${on} ${clock(watch.startedAt)}`;
  const read = watch.roundCount - watch.missedCount;
  return watch.state === 'running'
    ? `${at}, running`
    : `${at}, ${counted(read, 'round', 'rounds')}, ${stateWords[watch.state]}`;
}

/** Every watch that was kept at this station, the older ones too; nothing to choose while there is only one. */
export function WatchPick({ station }: Readonly<{ station: Station }>) {
  const watching = useSelected(selectWatching);
  const { openWatch } = useWorkbench();
  const { now } = useBench();
  if (watching.at !== 'open' || watching.watch.stationId !== station.id || watching.watches.length < 2)
    return null;
  const { watch, watches } = watching;
  return (
    <Select
      className="field field--line watch__pick"
      value={watch.watchId}
      onChange={(key) => key !== null && void openWatch(station.id, String(key))}
    >
      <Label className="watch__of">Watch of</Label>
      <Button className="select-button">
        <SelectValue />
      </Button>
      <Popover className="popover">
        <ListBox className="options">
          {watches.map((one) => {
            const words = watchWords(one, now());
            return (
              <ListBoxItem key={one.watchId} id={one.watchId} textValue={words} className="option">
                {words}
              </ListBoxItem>
            );
          })}
        </ListBox>
      </Popover>
    </Select>
  );
}
