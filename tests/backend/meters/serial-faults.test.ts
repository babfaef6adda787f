import { expect, it } from 'vitest';
import { lostFault, openFault } from '../../../electron/backend/meters/serial-faults.ts';

// The messages are those that serialport 13 gave when it was tried; the Windows ones are from its public threads.
it.each([
  ['Error: Resource temporarily unavailable Cannot lock port', 'linux', 'port-busy', /another program/],
  ['Opening COM7: Access denied', 'win32', 'port-busy', /unplug and replug/],
  [
    'Error: No such file or directory, cannot open /dev/ttyUSB0',
    'linux',
    'no-such-port',
    /plug the adapter in/,
  ],
  ['Opening COM7: File not found', 'win32', 'no-such-port', /plug the adapter in/],
  [
    'Error: Inappropriate ioctl for device setting custom baud rate of 9600',
    'linux',
    'no-such-port',
    /not a serial/,
  ],
  ['Error: Is a directory, cannot open /tmp', 'linux', 'no-such-port', /not a serial port/],
  ['Error: Permission denied, cannot open /dev/cu.x', 'darwin', 'no-permission', /may not use the port/],
  ['something new', 'linux', 'no-such-port', /something new/],
] as const)('%s (%s): %s', async (message, platform, code, help) => {
  const fault = await openFault('/nowhere/port', message, platform);
  expect(fault).toMatchObject({ code, where: '/nowhere/port' });
  expect(fault.help).toMatch(help);
});

it('names the group and the exact command where the account may not use the port', async () => {
  const fault = await openFault(
    '/nowhere/port',
    'Error: Permission denied, cannot open /nowhere/port',
    'linux',
  );
  expect(fault.code).toBe('no-permission');
  expect(fault.help).toContain('sudo usermod -aG dialout $USER');
});

it('says what to check when the meter is gone', () => {
  expect(lostFault('COM3', 'bad file descriptor')).toMatchObject({ code: 'lost', where: 'COM3' });
});
