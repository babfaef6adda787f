import { MeterProfile } from '../../../core/files/meter-profile.ts';

/**
 * A profile that comes with the program, checked like one from outside.
 * @throws  Error when it is none: then this program is broken
 */
export function shipped(data: unknown, fileName: string): MeterProfile {
  const parsed = MeterProfile.safeParse(data);
  if (parsed.success) return parsed.data;
  throw new Error(`${fileName} is no profile: ${parsed.error.message}`);
}
