import { expect, it } from 'vitest';
import { stayAwakeDuringSweeps } from '../../electron/main/awake.ts';

function blocked() {
  const log: string[] = [];
  let count = 0;
  const awake = stayAwakeDuringSweeps({
    start(kind) {
      count += 1;
      log.push(`start ${count} ${kind}`);
      return count;
    },
    stop: (id) => {
      log.push(`stop ${id}`);
      return true;
    },
  });
  const news = (name: string) => awake.saw({ type: 'event', name, data: {} });
  return { log, awake, news };
}

it('the display stays on from the first reading to the end of the sweep', () => {
  const { log, awake, news } = blocked();
  awake.saw({ type: 'hello', contract: 'x' });
  awake.saw('garbage');
  news('meter.changed');
  expect(log).toEqual([]);
  news('sweep.reading');
  news('sweep.reading');
  news('sweep.ended');
  news('sweep.ended');
  expect(log).toEqual(['start 1 prevent-display-sleep', 'stop 1']);
  news('sweep.reading');
  awake.rest();
  awake.rest();
  expect(log.slice(2)).toEqual(['start 2 prevent-display-sleep', 'stop 2']);
});

it('the display stays on for a live level, and the computer awake for a watch, each by itself', () => {
  const { log, awake, news } = blocked();
  news('watch.round');
  news('live.reading');
  news('live.reading');
  news('live.ended');
  news('watch.round');
  expect(log).toEqual(['start 1 prevent-app-suspension', 'start 2 prevent-display-sleep', 'stop 2']);
  news('watch.ended');
  news('watch.round');
  awake.rest();
  expect(log.slice(3)).toEqual(['stop 1', 'start 3 prevent-app-suspension', 'stop 3']);
});

it('nothing is held when the backend died in the middle of a sweep', () => {
  const { log, awake, news } = blocked();
  news('sweep.reading');
  awake.saw({ type: 'gone', why: 'the services stopped unexpectedly' });
  expect(log).toEqual(['start 1 prevent-display-sleep', 'stop 1']);
});
