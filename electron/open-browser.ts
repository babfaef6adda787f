import { spawn } from 'node:child_process';

const openers: Readonly<Partial<Record<NodeJS.Platform, readonly string[]>>> = {
  win32: ['cmd', '/c', 'start', ''],
  darwin: ['open'],
};

/** Opens an address in the person's own browser. When that can't be done, the printed line is there to click. */
export function openBrowser(address: string, platform: NodeJS.Platform = process.platform): void {
  const [program = 'xdg-open', ...words] = openers[platform] ?? ['xdg-open'];
  const opener = spawn(program, [...words, address], { stdio: 'ignore', detached: true });
  opener.on('error', () => {});
  opener.unref();
}
