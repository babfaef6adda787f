import { readFile, stat } from 'node:fs/promises';
import { MeterFault } from './meter-shop.ts';

const usualGroup = 'dialout';

/** The name of the group that owns a device, where the system can tell; root's own group helps nobody. */
async function groupOf(path: string): Promise<string> {
  try {
    const [{ gid }, groups] = await Promise.all([stat(path), readFile('/etc/group', 'utf8')]);
    const named = groups.split('\n').find((line) => line.split(':')[2] === String(gid));
    const group = named?.split(':')[0];
    return group === undefined || group === 'root' ? usualGroup : group;
  } catch {
    return usualGroup;
  }
}

/**
 * Why a port could not be opened, in words for the technician. The driver tells the reason only in its message:
 * the error of the native part carries no code.
 */
export async function openFault(
  path: string,
  message: string,
  platform = process.platform,
): Promise<MeterFault> {
  if (/cannot lock|temporarily unavailable|resource busy/i.test(message)) {
    return new MeterFault(
      'port-busy',
      path,
      'another program, or another window of this one, has the meter; close it there and connect again',
    );
  }
  if (/access (is )?denied|access denied/i.test(message) && platform === 'win32') {
    return new MeterFault(
      'port-busy',
      path,
      'another program has the meter, or the adapter hangs; close that program, or unplug and replug the adapter',
    );
  }
  if (/permission denied|operation not permitted|EACCES|EPERM/i.test(message)) {
    const group = await groupOf(path);
    const help =
      platform === 'linux'
        ? `this account may not use the port: run "sudo usermod -aG ${group} $USER" (the group is ${group}), then log out and in again`
        : 'this account may not use the port; ask whoever looks after this computer';
    return new MeterFault('no-permission', path, help);
  }
  if (/no such file|file not found|no such device|ENOENT/i.test(message)) {
    return new MeterFault(
      'no-such-port',
      path,
      'there is no such port; plug the adapter in and look for its port again, the name may have changed',
    );
  }
  if (/inappropriate ioctl|is a directory|not a (valid )?(serial )?port/i.test(message)) {
    return new MeterFault('no-such-port', path, 'this is not a serial port');
  }
  return new MeterFault('no-such-port', path, `the port does not open (${message})`);
}

/** The link went by itself: unplugged, switched off, or its driver gave up. */
export const lostFault = (path: string, message: string): MeterFault =>
  new MeterFault(
    'lost',
    path,
    `the meter is gone (${message}); check the cable and the meter's power, then connect it again`,
  );
