import { useState } from 'react';
import { FileTrigger } from 'react-aria-components';
import type { Position, Station } from '../../core/files/station.ts';
import { measuredCurve, withCurve, withoutCurve } from '../../core/files/touchstone/measured-curve.ts';
import { readPlugInResponse } from '../../core/files/touchstone/response.ts';
import { done, type Refusal, type Result } from '../../core/result.ts';
import { asWritten, bareMhz, capital, counted, plugIn } from '../format.ts';
import { lossWords } from '../how/path.ts';
import { CurveDraftTable } from '../parts/CurveDraftTable.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { fileText } from '../read-file-text.ts';
import { selectBusy } from '../state/select.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';

type Band = Readonly<{ lowMhz: number; highMhz: number }>;
export type PositionCurveProps = Readonly<{
  station: Station;
  position: Position;
  valueDb: number;
  /** Of the design that the position serves. */
  band: Band;
}>;

/** What a file was taken for, and the station as it would be; nothing of it holds before it is kept. */
type Draft = Readonly<{
  fileName: string;
  valueDb: number;
  station: Station;
  position: Position;
  pointCount: number;
  covers: Band;
  notes: readonly string[];
}>;

function draftOf(text: string, fileName: string, at: PositionCurveProps): Result<Draft> {
  const response = readPlugInResponse(text, fileName);
  if (!response.ok) return response;
  const curve = measuredCurve(response.value, fileName);
  if (!curve.ok) return curve;
  const better = withCurve(at.station, at.position.name, at.valueDb, curve.value);
  if (!better.ok) return better;
  const [lowMhz, highMhz] = [curve.value[0]?.[0] ?? 0, curve.value.at(-1)?.[0] ?? 0];
  return done({
    fileName,
    valueDb: at.valueDb,
    station: better.value,
    position: better.value.positions.find(({ name }) => name === at.position.name) ?? at.position,
    pointCount: curve.value.length,
    covers: { lowMhz, highMhz },
    notes: response.value.notes,
  });
}

const curvePoints = ({ curves }: Position, valueDb: number): number | null =>
  Object.entries(curves ?? {}).find(([key]) => Number(key) === valueDb)?.[1].length ?? null;

/** Both ends of a band and its middle, whole MHz. */
const threeOf = ({ lowMhz, highMhz }: Band): readonly number[] => [
  lowMhz,
  Math.round((lowMhz + highMhz) / 2),
  highMhz,
];

/** What a value of a position loses: by its label, or as a network analyser measured it. */
export function PositionCurve(props: PositionCurveProps) {
  const { station, position, valueDb, band } = props;
  const busy = useSelected(selectBusy);
  const { keepDesign } = useWorkbench();
  const [draft, setDraft] = useState<Draft | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const points = curvePoints(position, valueDb);
  const label = plugIn(valueDb);
  const take = async (files: FileList | null) => {
    const [file] = files ?? [];
    if (file === undefined) return;
    const made = draftOf((await fileText(file)).text, file.name, props);
    setDraft(made.ok ? made.value : null);
    setRefusal(made.ok ? null : made);
  };
  const keep = async (kept: Station, fileName: string, text: string) => {
    const backText = `The losses of ${kept.name} are what they were.`;
    if (await keepDesign({ station: kept, fileName, text, backText })) setDraft(null);
  };
  if (draft !== null && draft.valueDb === valueDb) {
    const { covers } = draft;
    const isShort = covers.lowMhz > band.lowMhz || covers.highMhz < band.highMhz;
    return (
      <section className="curve" aria-label={`Measured loss of ${label}`}>
        <p>
          <strong>{`${draft.fileName} as the loss of ${label}`}</strong>
          {`: ${counted(draft.pointCount, 'point', 'points')}, ${bareMhz(covers.lowMhz)} to ${bareMhz(covers.highMhz)} MHz.`}
        </p>
        <CurveDraftTable
          valueDb={valueDb}
          position={position}
          measured={draft.position}
          atMhz={threeOf(band)}
        />
        {isShort && <p>Beyond what was measured, its last value holds.</p>}
        {draft.notes.slice(1).map((note) => (
          <p key={note}>{`${asWritten(capital(note))}.`}</p>
        ))}
        <div className="curve__acts">
          <PressButton onPress={() => setDraft(null)}>Not this one</PressButton>
          <PressButton
            isDisabled={busy === 'keep-design'}
            onPress={() => void keep(draft.station, draft.fileName, `The measured loss of ${label} is kept.`)}
          >
            Compute with it
          </PressButton>
        </div>
      </section>
    );
  }
  return (
    <section className="curve" aria-label={`Loss of ${label}`}>
      <p>
        {points === null
          ? `${label} by its label: `
          : `${label} as measured, ${counted(points, 'point', 'points')}: `}
        <strong>{lossWords(position, valueDb, band)}</strong>
      </p>
      {refusal !== null && (
        <p role="alert">
          <strong>{refusal.where}</strong>
          {`: ${asWritten(refusal.help)}`}
        </p>
      )}
      <div className="curve__acts">
        {points !== null && (
          <PressButton
            isDisabled={busy === 'keep-design'}
            onPress={() =>
              void keep(
                withoutCurve(station, position.name, valueDb),
                'by its label',
                `The loss of ${label} is that of its label again.`,
              )
            }
          >
            By its label again
          </PressButton>
        )}
        <FileTrigger acceptedFileTypes={['.s2p', '.ts']} onSelect={(files) => void take(files)}>
          <PressButton>Take a measured loss, .s2p</PressButton>
        </FileTrigger>
      </div>
    </section>
  );
}
