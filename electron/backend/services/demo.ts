import type { Output } from '../../../core/bridge/contract.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';
import type { Archive } from '../archive/open.ts';
import type { Stations } from './stations.ts';

export type Demo = Readonly<{ load(): Output<'demo.load'> }>;

/** The invented network of Quillmere. A station that is there already stays as it is, whatever became of it since. */
export function createDemo(archive: Archive, stations: Stations): Demo {
  return {
    load() {
      for (const { station } of quillmere)
        if (!archive.stations.has(station.id)) stations.keep(station, 'demo');
      return { stationIds: quillmere.map(({ station }) => station.id) };
    },
  };
}
