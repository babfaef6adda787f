import { expect, it } from 'vitest';
import { qamOrderOf } from '../../../core/channels/qam-order.ts';

// Orders of ITU-T J.83 (64 and 256); the ways of writing them are common practice, no published source.
it('reads the ways a modulation is written', () => {
  expect(['256-QAM', 'QAM256', 'qam 64', '64QAM', ' 256 ', 'QAM-128'].map(qamOrderOf)).toEqual([
    256, 256, 64, 64, 256, 128,
  ]);
});

it('reads nothing into what is none', () => {
  for (const text of ['', 'QAM', '8VSB', 'OFDM 4096', '65-QAM', '64/256-QAM', '256-QAM?', '-64', '1e2'])
    expect(qamOrderOf(text)).toBeNull();
});
