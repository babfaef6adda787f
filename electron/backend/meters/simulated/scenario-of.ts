import type { Scenario } from '../../../../core/files/scenario.ts';
import type { Station } from '../../../../core/files/station.ts';
import { genericScenario } from '../../../../core/simulate/generic.ts';
import { quillmere } from '../../../../core/simulate/quillmere.ts';

const SEED_OF_OTHER_STATIONS = 4;

/** A station of Quillmere plays its own story; another station plays a general one. */
export const scenarioOf = (station: Station): Scenario =>
  quillmere.find((demo) => demo.station.id === station.id)?.scenario ??
  genericScenario(station, SEED_OF_OTHER_STATIONS);
