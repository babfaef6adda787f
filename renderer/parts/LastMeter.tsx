import type { Output } from '../../core/bridge/contract.ts';
import { Mark } from './Mark.tsx';

export type LastMeterProps = Readonly<{ last: NonNullable<Output<'meters.last'>['last']> }>;

/** The meter that was used last, and where its adapter is plugged in now; nothing for the simulated one. */
export function LastMeter({ last }: LastMeterProps) {
  const { choice, identity, now, moved } = last;
  if (choice.kind === 'simulated') return null;
  const { maker, model, serialNumber } = identity;
  const named = [maker, model, serialNumber].filter((word) => word !== '').join(' ');
  const place =
    now === null || now.kind === 'simulated'
      ? 'its adapter is not plugged in'
      : moved
        ? `its adapter is at ${now.path} now, it was at ${choice.path}`
        : `at ${now.path}`;
  return (
    <p className="quiet" role="status">
      {now === null && <Mark verdict="undecided" />} Used last: {named}, {place}.
    </p>
  );
}
