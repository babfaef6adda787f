import { expect, it } from 'vitest';
import { readStation } from '../../../core/files/station.ts';
import { quillmerePlans, quillmereStation } from '../../../core/simulate/quillmere-stations.ts';

it('makes stations that the station file accepts, each installed value one that the truck holds', () => {
  for (const plan of Object.values(quillmerePlans)) {
    const station = quillmereStation(plan);
    expect(readStation(JSON.stringify(station), 's.json')).toEqual({ ok: true, value: station });
    for (const position of station.positions) expect(position.values).toContain(position.installed);
  }
});
