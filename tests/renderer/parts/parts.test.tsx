// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import type { Position } from '../../../core/files/station.ts';
import { standingAgainstDesign } from '../../../core/line/standing.ts';
import { howLoss, howPathLevel } from '../../../renderer/how/path.ts';
import { FindingTable } from '../../../renderer/parts/FindingTable.tsx';
import { findingRows } from '../../../renderer/parts/finding-rows.ts';
import { Guard } from '../../../renderer/parts/Guard.tsx';
import { HeldAgainst } from '../../../renderer/parts/HeldAgainst.tsx';
import { MeterWays } from '../../../renderer/parts/MeterWays.tsx';
import { PlugInSwap } from '../../../renderer/parts/PlugInSwap.tsx';
import { SignalPath } from '../../../renderer/parts/SignalPath.tsx';
import { StationList } from '../../../renderer/parts/StationList.tsx';
import { ValueKeys } from '../../../renderer/parts/ValueKeys.tsx';
import { station } from '../sheet-records.ts';

afterEach(cleanup);
const plain = (text: string | null) => (text ?? '').replaceAll('\u00A0', ' ');

it('says a swap as the technician will say it', () => {
  render(<PlugInSwap position="input equalizer" from={8} to={10} />);
  expect(screen.getByLabelText('Input equalizer: replace 8 with 10')).toBeDefined();
});

it('tells each figure with its target, and its standing in a word', () => {
  const design = station.ports[0]?.design;
  if (design === undefined) throw new Error('the test station has a design');
  const rows = Array.from({ length: 40 }, (_, i) => ({ frequencyMhz: 60 + 20 * i, levelDbmv: 36 }));
  const uncertainty = { meter: MeterUncertainty.parse({}), ambientC: 20 };
  const standing = standingAgainstDesign(rows, design, { keepAll: true, uncertainty });
  if (!standing.ok) throw new Error(standing.code);
  render(
    <FindingTable
      caption="How it stands"
      rows={findingRows(standing.value, design, 'dBmV', { from: 'defaults' })}
    />,
  );
  const high = screen.getByRole('row', { name: /Level, high/ });
  expect(plain(high.textContent)).toBe('Level, highof 46.0 dBmV36.0\u00B10.7 lowsure');
  expect(plain(screen.getByRole('row', { name: /Level, low/ }).textContent)).toContain('36.0\u00B10.7 good');
  expect(plain(screen.getByRole('row', { name: /Flatness/ }).textContent)).toContain('up to 2.5 dB');
});

it('says whether the new sweep lies on the prediction, and where it does not', () => {
  const held = { meanDb: 0, comparedCount: 136, withinDb: 0.7, worstMhz: 700, after: 'parts' } as const;
  const { rerender } = render(<HeldAgainst held={{ ...held, worstDb: 0.2, agrees: true }} />);
  expect(plain(document.body.textContent)).toBe('As predicted, within 0.2 dB.');
  rerender(<HeldAgainst held={{ ...held, worstDb: -1.4, agrees: false }} />);
  expect(plain(screen.getByRole('alert').textContent)).toBe(
    'Not as predicted: 1.4 dB low at 700 MHz. The meter and the parts’ own tolerance explain 0.7 dB. A part may not be what its label says, or not seated.',
  );
});

it('draws the signal path as blocks that can be pressed, with what to change in their names', () => {
  const pressed = vi.fn();
  const pad: Position = { name: 'input pad', kind: 'pad', installed: 6, values: [5, 6] };
  const band = { lowMhz: 54, highMhz: 870 };
  const at = { portName: 'forward input', levelDbmv: 16.2, atMhz: 870, count: 136, testPointLossDb: 20 };
  render(
    <SignalPath
      blocks={[
        {
          ...{ kind: 'position', name: 'input pad', plugInKind: 'pad', inDb: 6, toDb: 5 },
          loss: { words: '6.0 dB', how: howLoss(pad, 6, band) },
        },
        { kind: 'amplifier', key: 'output' },
      ]}
      input={{ name: 'in', level: { words: '16.2', how: howPathLevel('in', at, 'dBmV') }, here: false }}
      output={{ name: 'out', level: null, here: true }}
      onPosition={pressed}
      locked={false}
    />,
  );
  fireEvent.click(screen.getByRole('button', { name: /input pad: 6 is in, change to 5/ }));
  expect(pressed).toHaveBeenCalledWith('input pad');
  expect(screen.getByRole('img', { name: 'Amplifier' })).toBeDefined();
  // Both numbers of the path can be pressed, and the press is not one on the block.
  fireEvent.click(screen.getByRole('button', { name: /^What the input pad 6 takes away, 6.0 dB/ }));
  expect(screen.getByRole('dialog').textContent).toContain('the value on its label = 6.0');
  fireEvent.keyDown(screen.getByRole('dialog'), { key: 'Escape' });
  expect(screen.queryByRole('dialog')).toBeNull();
  fireEvent.click(screen.getByRole('button', { name: /^Level at the input, 16.2/ }));
  expect(plain(screen.getByRole('dialog').textContent)).toContain('16.2 dBmV at 870 MHz');
  expect(pressed).toHaveBeenCalledOnce();
});

it('offers the values of the kit, what is in although the kit has none, and marks the proposed one', () => {
  const chosen = vi.fn();
  render(
    <ValueKeys label="Input pad" values={[0, 1, 2]} inDb={6} proposedDb={2} chosenDb={6} onChoose={chosen} />,
  );
  expect(screen.getAllByRole('option').map(({ textContent }) => textContent)).toEqual([
    '0',
    '1',
    '2proposed',
    '6is in',
  ]);
  fireEvent.click(screen.getByRole('option', { name: /^2/ }));
  expect(chosen).toHaveBeenCalledWith(2);
});

describe('the list of stations', () => {
  const row = (name: string, verdict: 'pass' | 'fail' | null) => ({
    stationId: name,
    name,
    revision: 1,
    sweepCount: 2,
    openVisit: false,
    standing:
      verdict === null
        ? null
        : {
            sweepId: '00000000-0000-4000-8000-000000000001',
            at: '2026-11-25T09:00:00.000Z',
            purpose: 'as-found' as const,
            state: 'complete' as const,
            verdict,
            headline: '2.1 dB low at 867 MHz, right at the low end',
            worstDb: -2.4,
            worstMhz: 867,
          },
  });

  it('tells the standing in words, and opens by click and by keyboard', () => {
    const opened = vi.fn();
    render(
      <StationList
        rows={[row('03 Ropewalk', 'pass'), row('07 Mill Lane', 'fail'), row('11 Customs Quay', null)]}
        isLong={false}
        now="2026-11-25T10:00:00.000Z"
        onOpen={opened}
      />,
    );
    const mill = screen.getByRole('row', { name: '07 Mill Lane' });
    expect(plain(mill.textContent)).toContain('needs work2.1 dB low at 867 MHz');
    expect(plain(mill.textContent)).toContain('2.4 dBworst, at 867 MHz');
    expect(screen.getByRole('row', { name: '03 Ropewalk' }).textContent).toContain('in order');
    expect(screen.getByRole('row', { name: '11 Customs Quay' }).textContent).toContain('not yet read');
    fireEvent.click(mill);
    expect(opened).toHaveBeenLastCalledWith('07 Mill Lane');
    const quay = screen.getByRole('row', { name: '11 Customs Quay' });
    act(() => quay.focus());
    fireEvent.keyDown(quay, { key: 'Enter' });
    fireEvent.keyUp(quay, { key: 'Enter' });
    expect(opened).toHaveBeenLastCalledWith('11 Customs Quay');
    expect(opened).toHaveBeenCalledTimes(2);
  });
});

describe('the ways to a meter', () => {
  const ways = (ports: Parameters<typeof MeterWays>[0]['ports']) => {
    cleanup();
    render(<MeterWays ports={ports} chosen=":simulated" onChoose={() => {}} onLookAgain={() => {}} />);
    return within(screen.getByRole('radiogroup'));
  };

  it('puts likely ports first', () => {
    const list = ways({
      at: 'found',
      problem: null,
      ports: [
        { path: '/dev/ttyS0', label: 'built in', likely: false },
        { path: '/dev/ttyUSB0', label: 'USB adapter', likely: true },
      ],
    });
    const names = list.getAllByText(/^\/dev/).map(({ textContent }) => textContent);
    expect(names).toEqual(['/dev/ttyUSB0', '/dev/ttyS0']);
  });

  it('tells a list that failed from a list that is empty', () => {
    expect(
      ways({ at: 'found', ports: [], problem: 'udevadm is missing' }).getByText(/may be incomplete/),
    ).toBeDefined();
    expect(ways({ at: 'found', ports: [], problem: null }).getByText(/No port found/)).toBeDefined();
    expect(ways({ at: 'looking' }).getByText(/Looking for ports/)).toBeDefined();
  });
});

const Broken = (): never => {
  throw new Error('no drawing');
};

it('puts the table in the place of a drawing that fails, until the next sweep', () => {
  const quiet = vi.spyOn(console, 'error').mockImplementation(() => {});
  const { rerender } = render(
    <Guard fallback={<p>the table</p>} resetKey="a">
      <Broken />
    </Guard>,
  );
  expect(screen.getByText('the table')).toBeDefined();
  rerender(
    <Guard fallback={<p>the table</p>} resetKey="b">
      <p>the drawing</p>
    </Guard>,
  );
  expect(screen.getByText('the drawing')).toBeDefined();
  quiet.mockRestore();
});
