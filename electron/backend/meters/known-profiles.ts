import type { Profile } from './profile.ts';
import { scpi } from './profiles/scpi.ts';

/** Every profile of the folder `profiles`; a test compares the two. */
export const knownProfiles: readonly Profile[] = [scpi];
