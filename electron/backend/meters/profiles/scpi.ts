import { shipped } from '../shipped-profile.ts';
import data from './scpi.json' with { type: 'json' };

/** The profile of the simulated meter, and the first one of the list; why it asks as it does stands in its file. */
export const scpi = shipped(data, 'scpi.json');
