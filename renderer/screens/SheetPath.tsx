import type { StationSheet } from '../../core/bridge/records.ts';
import type { Port, Station } from '../../core/files/station.ts';
import { bareLevel } from '../format.ts';
import { howLoss, howPathLevel, lossWords } from '../how/path.ts';
import { type PathBlock, SignalPath } from '../parts/SignalPath.tsx';
import { bandOf } from '../state/read-plans.ts';
import { selectLevelUnit, selectVisitIsOpen } from '../state/select.ts';
import type { SheetView } from '../state/sheet-view.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';

export type SheetPathProps = Readonly<{ sheet: StationSheet; view: SheetView; locked: boolean }>;

/** The port whose way through the station is drawn: the port's own, or the longest in the same direction. */
function drawnPort(station: Station, port: Port): Port {
  if (port.through.length > 0) return port;
  const same = station.ports.filter(({ direction }) => direction === port.direction);
  return same.reduce(
    (longest, other) => (other.through.length > longest.through.length ? other : longest),
    port,
  );
}

function blocksOf({ station, pluggedIn }: StationSheet, drawn: Port, view: SheetView): readonly PathBlock[] {
  const stage = new Set(station.stageInput?.through ?? []);
  const band = bandOf(station, drawn.name);
  const lastOfStage = drawn.through.findLastIndex((name) => stage.has(name));
  const changes = new Map(view.choice?.changes.map(({ position, to }) => [position, to]) ?? []);
  const blocks = drawn.through.flatMap((name, i): PathBlock[] => {
    const position = station.positions.find((one) => one.name === name);
    if (position === undefined) return [];
    const inDb = pluggedIn[name] ?? position.installed;
    const block: PathBlock = {
      kind: 'position',
      name,
      plugInKind: position.kind,
      inDb,
      toDb: changes.get(name) ?? null,
      loss:
        band === null ? null : { words: lossWords(position, inDb, band), how: howLoss(position, inDb, band) },
    };
    const stageEnds = i === lastOfStage && i < drawn.through.length - 1;
    return stageEnds ? [block, { kind: 'amplifier', key: 'stage' }] : [block];
  });
  return [...blocks, { kind: 'amplifier', key: 'output' }];
}

export function SheetPath({ sheet, view, locked }: SheetPathProps) {
  const unit = useSelected(selectLevelUnit);
  const visitIsOpen = useSelected(selectVisitIsOpen);
  const { dialogOpened } = useActions();
  const drawn = drawnPort(sheet.station, view.port);
  const isOutput = view.port === drawn;
  const { standing, inputFit } = view;
  const outputLevel =
    isOutput && standing !== null
      ? {
          words: bareLevel(standing.levelHigh.valueDbmv, unit),
          how: howPathLevel(
            'out',
            {
              portName: drawn.name,
              levelDbmv: standing.levelHigh.valueDbmv,
              atMhz: standing.fit.highMhz,
              count: standing.fit.count,
              testPointLossDb: view.shown?.summary.testPointLossDb ?? drawn.testPointLossDb,
            },
            unit,
          ),
        }
      : null;
  const inputName = sheet.station.stageInput?.port ?? '';
  const inputPort = sheet.station.ports.find(({ name }) => name === inputName);
  const inputLevel =
    inputFit === null
      ? null
      : {
          words: bareLevel(inputFit.highDbmv, unit),
          how: howPathLevel(
            'in',
            {
              portName: inputName,
              levelDbmv: inputFit.highDbmv,
              atMhz: inputFit.highMhz,
              count: inputFit.count,
              testPointLossDb: inputPort?.testPointLossDb ?? 0,
            },
            unit,
          ),
        };
  return (
    <SignalPath
      blocks={blocksOf(sheet, drawn, view)}
      input={{ name: 'in', level: inputLevel, here: !isOutput }}
      output={{ name: 'out', level: outputLevel, here: isOutput }}
      locked={locked}
      onPosition={(position) =>
        dialogOpened(visitIsOpen ? { open: 'position', position } : { open: 'begin-visit' })
      }
    />
  );
}
