import { existsSync, readdirSync } from 'node:fs';
import { join, relative } from 'node:path';

const backup = /tiltwright-\d{8}T\d{6}Z\.(sqlite|json)$/;
/** What belongs into the folder of an archive, and into the one of another drive. */
const lasting = [
  /^tiltwright\.(sqlite|marker|lock|ballast)$/,
  /^tiltwright\.sqlite-(wal|shm)$/,
  /^tiltwright-kept-aside-\d{8}T\d{6}Z(-\d+)?\.sqlite(-wal)?$/,
  new RegExp(`^(backups/)?${backup.source}`),
  /^tiltwright-[0-9a-f]{8}-[\w.-]+Z\.records\.gz$/,
];
/** What a program that was ended in the middle may leave behind, for the next one to put away. */
const passing = [
  /^tiltwright\.lock-journal$/,
  /^tiltwright\.(running|ballast\.partial)$/,
  /^tiltwright\.sqlite-journal$/,
  /^tiltwright-without-log\.sqlite(-wal|-shm)?$/,
  /^tiltwright-restoring\.sqlite(-wal|-shm|-journal)?$/,
  new RegExp(`^(backups/)?${backup.source.slice(0, -1)}\\.partial(-journal|-wal|-shm)?$`),
  /^tiltwright-[0-9a-f]{8}-[\w.-]+Z\.records\.gz\.[0-9a-f]{8}\.part$/,
  /^transfer\/[0-9a-f-]{36}(\.[0-9a-f]{8}\.part)?$/,
];

/**
 * Files in a folder that belong to nothing, or, once everything was put away, that are left over.
 * @param when  `killed`: what the next program puts away may still be there
 */
export function strayFiles(folder: string, when: 'killed' | 'put-away'): readonly string[] {
  if (!existsSync(folder)) return [];
  const allowed = when === 'killed' ? [...lasting, ...passing] : lasting;
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).replaceAll('\\', '/'))
    .filter((name) => !allowed.some((pattern) => pattern.test(name)))
    .map((name) => `${name} is left over in ${folder}`);
}

/** Facts of a backup without the backup. */
export function lonelyFacts(folder: string): readonly string[] {
  if (!existsSync(folder)) return [];
  const names = new Set(readdirSync(folder));
  return [...names]
    .filter(
      (name) => /^tiltwright-\d{8}T\d{6}Z\.json$/.test(name) && !names.has(name.replace('.json', '.sqlite')),
    )
    .map((name) => `${name} in ${folder} tells of a backup that is not there`);
}
