import { useEffect, useRef } from 'react';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { inksOf } from './LiveTrace.tsx';
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
  /** Redraws in the new inks when it changes. */
  theme: string;
}>;

/** The last minute of the level on canvas. */
export function LevelStrip({ source, target, title, unit, theme }: LevelStripProps) {
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const size = useSize(box);
  useEffect(() => {
    const at = canvas.current;
    if (at === null || size === null || size.width === 0) return;
    const scale = window.devicePixelRatio;
    at.width = size.width * scale;
    at.height = size.height * scale;
    const pen = at.getContext('2d');
    if (pen === null) return;
    at.dataset.theme = theme;
    const inks = inksOf(at);
    const draw = () => {
      pen.setTransform(scale, 0, 0, scale, 0, 0);
      drawLevelStrip(pen, { ...size, readings: source.readings(), nowS: source.nowS(), target, inks, unit });
    };
    draw();
    return source.onTick(draw);
  }, [source, target, size, theme, unit]);
  return (
    <div ref={box} className="picture">
      <canvas ref={canvas} className="live-trace" role="img" aria-label={title} />
    </div>
  );
}
