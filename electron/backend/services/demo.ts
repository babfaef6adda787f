import type { Output } from '../../../core/bridge/contract.ts';
import { BENCH_METER } from '../../../core/simulate/bench-meter.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';
import { quillmereNotes } from '../../../core/simulate/quillmere-notes.ts';
import { keepQuillmerePast } from './demo-history.ts';
import type { Designs } from './designs.ts';
import type { ServiceParts } from './service-parts.ts';
import type { SettingsService } from './settings.ts';
import type { Stations } from './stations.ts';

export type Demo = Readonly<{ load(): Output<'demo.load'> }>;

/**
 * The invented network of Quillmere with its spans and amplifiers, the past of one of its stations, and the data sheet of its
 * meter. What is there already stays as it is, whatever became of it since.
 */
export function createDemo(
  parts: Pick<ServiceParts, 'archive' | 'now' | 'newId'>,
  designs: Designs,
  stations: Stations,
  settings: Pick<SettingsService, 'read' | 'change' | 'readNotes' | 'changeNotes'>,
): Demo {
  return {
    load() {
      for (const { station } of quillmere)
        if (!parts.archive.stations.has(station.id)) stations.keep(station, 'demo');
      keepQuillmerePast(parts, designs);
      for (const [stationId, figures] of Object.entries(quillmereNotes))
        if (settings.readNotes(stationId).revision === 0)
          settings.changeNotes({
            ...{ stationId, basedOn: 0 },
            notes: { format: 'tiltwright-station-notes/1', ...figures },
          });
      const { settings: held, revision } = settings.read();
      if (!Object.hasOwn(held.sheets, BENCH_METER.model))
        settings.change({
          basedOn: revision,
          settings: { ...held, sheets: { ...held.sheets, [BENCH_METER.model]: BENCH_METER.sheet } },
        });
      return { stationIds: quillmere.map(({ station }) => station.id) };
    },
  };
}
