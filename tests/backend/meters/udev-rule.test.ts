import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { textOf } from '../../support/source-files.ts';

const path = 'electron/linux/60-tiltwright-meter.rules';
const lines = textOf(path)
  .split('\n')
  .filter((line) => line !== '' && !line.startsWith('#'));

// udev(7): comma-separated KEY op "value"; "==" and "!=" match, "=" assigns.
it('is a rule file by the grammar of udev, each line with something that it does', () => {
  const pair = /^(ACTION|SUBSYSTEM|ENV\{\w+\}|ATTR\{\w+\}|GOTO|LABEL)(==|!=|=)"[^"]*"$/;
  for (const line of lines) {
    const pairs = line.split(/,\s*/);
    for (const one of pairs) expect(one).toMatch(pair);
    expect(pairs.filter((one) => /[^!=]="/.test(one))).toHaveLength(1);
  }
  expect(lines.at(-1)).toBe('LABEL="tiltwright_meter_end"');
});

// ModemManager, common udev tags: ID_MM_DEVICE_IGNORE belongs to the whole device, never to one port of it.
it('touches nothing but whole USB devices that it names by both numbers', () => {
  const first = lines.findIndex((line) => line.includes('ID_MM_DEVICE_IGNORE'));
  expect(lines.slice(0, first)).toEqual([
    'ACTION!="add|change|move|bind", GOTO="tiltwright_meter_end"',
    'SUBSYSTEM!="usb", GOTO="tiltwright_meter_end"',
    'ENV{DEVTYPE}!="usb_device", GOTO="tiltwright_meter_end"',
  ]);
  for (const line of lines.slice(first, -1))
    expect(line).toMatch(
      /^ATTR\{idVendor\}=="[0-9a-f]{4}", ATTR\{idProduct\}=="[0-9a-f]{4}", ENV\{ID_MM_DEVICE_IGNORE\}="1"$/,
    );
});

it('is what the README says to copy, and how', () => {
  const readme = textOf('README.md');
  expect(readme).toContain(`sudo cp ${path} /etc/udev/rules.d/`);
  expect(readme).toContain('sudo udevadm control --reload');
  expect(readme).toContain('sudo usermod -aG dialout $USER');
});

it('passes udevadm where that can verify rules', ({ skip }) => {
  const verified = spawnSync('udevadm', ['verify', path], { encoding: 'utf8' });
  if (verified.error || /unrecognized|Unknown|unknown/.test(verified.stderr))
    skip('no udevadm that verifies');
  expect(verified.status).toBe(0);
});
