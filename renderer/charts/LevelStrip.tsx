import { useEffect, useRef } from 'react';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { inksOf, useDress } from './inks.ts';
import { drawLevelStrip, type LevelStripPicture, type StripReading } from './level-strip-drawing.ts';
import { useSize } from './use-size.ts';

/** Readings as they come, past React; `nowS` is the present on their clock. */
export type StripSource = Readonly<{
  readings(): readonly StripReading[];
  nowS(): number;
  onTick(listener: () => void): () => void;
}>;

export type LevelStripProps = Readonly<{
  source: StripSource;
  target: LevelStripPicture['target'];
  title: string;
  unit: LevelUnitName;
}>;

/** The last minute of the level on canvas. */
export function LevelStrip({ source, target, title, unit }: LevelStripProps) {
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
    const draw = () => {
      pen.setTransform(scale, 0, 0, scale, 0, 0);
      drawLevelStrip(pen, { ...size, readings: source.readings(), nowS: source.nowS(), target, inks, unit });
    };
    draw();
    return source.onTick(draw);
  }, [source, target, size, dressed, unit]);
  return (
    <div ref={box} className="picture">
      <canvas ref={canvas} className="live-trace" role="img" aria-label={title} />
    </div>
  );
}
