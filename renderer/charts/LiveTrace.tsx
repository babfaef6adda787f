import { useEffect, useRef } from 'react';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { Design } from '../../core/files/station.ts';
import { targetDbmv } from '../../core/line/design-line.ts';
import type { LevelRow } from '../../core/line/level-row.ts';
import { inksOf, useDress } from './inks.ts';
import { drawLive } from './live-drawing.ts';
import { useSize } from './use-size.ts';

/** Where the readings come from as they come, past React: the latest rows, and a call at most once a frame. */
export type LiveRows = Readonly<{ rows(): readonly LevelRow[]; onFrame(listener: () => void): () => void }>;

export type LiveTraceProps = Readonly<{
  source: LiveRows;
  design: Design | null;
  /** What the channel there is carried above or below the design line, dB. */
  offsetDb: (frequencyMhz: number) => number;
  lowMhz: number;
  highMhz: number;
  title: string;
  unit: LevelUnitName;
}>;

/** The running sweep on canvas: a reading costs one small drawing and no work of React's. */
export function LiveTrace({ source, design, offsetDb, lowMhz, highMhz, title, unit }: LiveTraceProps) {
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const size = useSize(box);
  const dressed = useDress();
  useEffect(() => {
    const at = canvas.current;
    if (at === null || size === null || size.width === 0) return;
    const scale = window.devicePixelRatio;
    at.width = size.width * scale;
    at.height = size.height * scale;
    const pen = at.getContext('2d');
    if (pen === null) return;
    // The inks that it is drawn in are those of this dress.
    at.dataset.dress = dressed;
    const inks = inksOf(at);
    const target = (frequencyMhz: number) =>
      design === null ? null : targetDbmv(design, frequencyMhz) + offsetDb(frequencyMhz);
    const draw = () => {
      pen.setTransform(scale, 0, 0, scale, 0, 0);
      drawLive(pen, { ...size, rows: source.rows(), design, target, lowMhz, highMhz, inks, unit });
    };
    draw();
    return source.onFrame(draw);
  }, [source, design, offsetDb, lowMhz, highMhz, size, dressed, unit]);
  return (
    <div ref={box} className="picture">
      <canvas ref={canvas} className="live-trace" role="img" aria-label={title} />
    </div>
  );
}
