import { mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readMeterProfile } from '../../../core/files/meter-profile.ts';
import { type Result, refuse } from '../../../core/result.ts';
import type { Profile } from './profile.ts';

/** A file of the folder that is no profile, and why. */
export type BrokenProfile = Readonly<{ fileName: string; where: string; help: string }>;

/** The profiles that a shop has written itself, and the files among them that are none. */
export type ProfileFolder = Readonly<{
  path: string;
  read(): Readonly<{ profiles: readonly Profile[]; broken: readonly BrokenProfile[] }>;
  /** Keeps a checked profile as `<name>.json`; refuses what is no profile or has the name of one that is shipped. */
  save(text: string): Result<Profile>;
}>;

const LARGEST_BYTES = 1_000_000;
const isProfileFile = (name: string) => name.toLowerCase().endsWith('.json') && !name.startsWith('.');

/**
 * The folder `profiles` of a data folder. It is read anew each time, so that a file that was just written counts; a
 * broken file is named and does not keep the others from being used.
 * @param shippedNames  names that are taken
 */
export function profileFolder(dataDir: string, shippedNames: readonly string[]): ProfileFolder {
  const folder = join(dataDir, 'profiles');
  const checked = (text: string, fileName: string): Result<Profile> => {
    const profile = readMeterProfile(text, fileName);
    if (!profile.ok || !shippedNames.includes(profile.value.name)) return profile;
    const help = `"${profile.value.name}" is the name of a profile that comes with the program; give it another`;
    return refuse('name-taken', `${fileName}, name`, help);
  };
  return {
    path: folder,
    read() {
      const profiles: Profile[] = [];
      const broken: BrokenProfile[] = [];
      for (const fileName of filesOf(folder)) {
        const text = textOf(join(folder, fileName));
        const profile = text.ok ? checked(text.value, fileName) : text;
        const twin = profile.ok && profiles.some(({ name }) => name === profile.value.name);
        if (profile.ok && !twin) profiles.push(profile.value);
        else if (profile.ok)
          broken.push({
            fileName,
            where: `${fileName}, name`,
            help: 'another file of the folder has this name',
          });
        else broken.push({ fileName, where: profile.where, help: profile.help });
      }
      return { profiles, broken };
    },
    save(text) {
      const profile = checked(text, 'profile');
      if (!profile.ok) return profile;
      mkdirSync(folder, { recursive: true });
      const path = join(folder, `${profile.value.name}.json`);
      // Beside it and then moved, so that a full disk leaves the one before.
      writeFileSync(`${path}.new`, text);
      renameSync(`${path}.new`, path);
      return profile;
    },
  };
}

/** No folder is a folder without files. */
function filesOf(folder: string): readonly string[] {
  try {
    return readdirSync(folder).filter(isProfileFile).sort();
  } catch {
    return [];
  }
}

function textOf(path: string): Result<string> {
  try {
    const text = readFileSync(path, 'utf8');
    if (text.length <= LARGEST_BYTES) return { ok: true, value: text };
    return refuse('not-a-profile', path, 'a profile is never that large');
  } catch (fault) {
    const why = fault instanceof Error && 'code' in fault ? String(fault.code) : String(fault);
    return refuse('not-readable', path, `the file can not be read (${why})`);
  }
}
