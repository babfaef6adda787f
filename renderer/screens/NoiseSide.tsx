import { useState } from 'react';
import type { CascadeLink } from '../../core/bridge/cascade-calls.ts';
import type { NoiseRow } from '../../core/noise/noise-report.ts';
import { level, sizeDb } from '../format.ts';
import { howNoise, howTogether, limitWords, noiseFigure, noiseNames } from '../how/noise.ts';
import { type FindingRow, FindingTable } from '../parts/FindingTable.tsx';
import { HowText } from '../parts/HowText.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { type NoiseView, viewNoise } from '../state/noise-view.ts';
import { selectLevelUnit } from '../state/select.ts';
import { cascadeWords, noiseHeadline } from '../state/span-words.ts';
import { useSelected } from '../state/use-workbench.ts';
import { FiguresPanel } from './FiguresPanel.tsx';

export type NoiseSideProps = Readonly<{ links: readonly CascadeLink[]; unknownId: string | null }>;

const standing = { pass: 'good', fail: 'beyond', undecided: 'undecided', unknown: '' } as const;

/** "here −73.0, limit −53.0 dBc" */
function targetWords({ key, ownDb, limit }: NoiseRow): string {
  const here = ownDb === null ? 'here not told' : `here ${noiseFigure(key, ownDb)}`;
  return limit === null
    ? here
    : `${here.replace(/\u00A0\w+$/, '')}, limit ${noiseFigure(key, limit.limitDb)}`;
}

function rowsOf(view: NoiseView, unit: Parameters<typeof howNoise>[2]): readonly FindingRow[] {
  return view.report.rows.map((row): FindingRow => {
    const { key, cascadeDb, limit, inHandDb, verdict } = row;
    return {
      name: noiseNames[key],
      target: targetWords(row),
      value: cascadeDb === null ? '\u2013' : noiseFigure(key, cascadeDb).replace(/\u00A0\w+$/, ''),
      goodTo: '',
      verdict,
      word: standing[verdict],
      sure:
        limit === null ? 'no limit' : inHandDb === null ? limitWords(key, limit) : `by ${sizeDb(inHandDb)}`,
      pointing: limit?.side === 'least' ? 'down' : 'up',
      how: howNoise(row, view, unit),
    };
  });
}

/** Noise and distortion of the station and of all that stand in front of it. */
export function NoiseSide({ links, unknownId }: NoiseSideProps) {
  const unit = useSelected(selectLevelUnit);
  const [isOpen, setIsOpen] = useState(false);
  const view = viewNoise(links);
  const last = links.at(-1);
  if (view === null || last === undefined) return null;
  const { report, together, withoutFigures } = view;
  const missing = report.rows.find((row) => row.missing !== null)?.missing ?? null;
  const panel = (
    <FiguresPanel
      key={JSON.stringify(last.notes)}
      link={last}
      isOpen={isOpen}
      onClose={() => setIsOpen(false)}
    />
  );
  if (last.notes?.amplifier === undefined)
    return (
      <>
        <p className="lead">Noise and distortion</p>
        <h1>The amplifier’s figures are not entered</h1>
        <p>
          Noise figure, gain, and the distortions at a rated output level stand in the data sheet of the
          amplifier module. With them, carrier to noise, CTB, CSO and MER are told here for this station and
          for all that feed it.
        </p>
        <div className="do span-noise__do">
          <PressButton rank="do" size="visit" onPress={() => setIsOpen(true)}>
            Enter the figures
          </PressButton>
        </div>
        {panel}
      </>
    );
  return (
    <>
      <p className="lead">{cascadeWords(view)}</p>
      <h1>{noiseHeadline(view)}</h1>
      <FindingTable caption="Noise and distortion behind this station" rows={rowsOf(view, unit)} />
      {missing !== null && <p>{`${missing.where}: ${missing.help}.`}</p>}
      {withoutFigures.length > 0 && (
        <p>{`Without figures: ${withoutFigures.join(', ')}. Open the station and enter them there.`}</p>
      )}
      {unknownId !== null && (
        <p>{`The station that feeds ${links[0]?.station.name ?? ''} is named “${unknownId}” and is not in this archive: the cascade is told from there on.`}</p>
      )}
      <p className="quiet">
        Limits hold at the subscriber’s terminal; amplifiers and drop on the way there take their share.
      </p>
      {together !== null && (
        <p className="quiet">
          <HowText
            how={howTogether(together, unit)}
            text={`All carriers together ${together.from === 'sweep' ? 'put out' : 'are to put out'} ${level(together.totalDbmv, unit)}.`}
            figure={level(together.totalDbmv, unit)}
          />
        </p>
      )}
      <div className="span-noise__do">
        <PressButton size="visit" onPress={() => setIsOpen(true)}>
          Figures of this station
        </PressButton>
      </div>
      {panel}
    </>
  );
}
