import type { SignalShape } from './signal-marks.ts';

export type ChannelMarkProps = Readonly<{
  shape: SignalShape;
  /** Where the bar stands, where it begins (no deviation) and where it ends, CSS pixels. */
  x: number;
  zeroY: number;
  endY: number;
  width: number;
  isOut: boolean;
}>;

/** One channel's deviation. The shape tells what kind of signal it carries, the weight whether it is out of tolerance. */
export function ChannelMark({ shape, x, zeroY, endY, width, isOut }: ChannelMarkProps) {
  const top = Math.min(zeroY, endY);
  const height = Math.max(0.5, Math.abs(endY - zeroY));
  const out = isOut ? ' mark-of--out' : '';
  const away = endY < zeroY ? -1 : 1;
  switch (shape) {
    case 'bar':
      return <rect className={`mark-of${out}`} x={x - width / 2} width={width} y={top} height={height} />;
    case 'hollow':
      return (
        <rect
          className={`mark-of mark-of--hollow${out}`}
          x={x - width / 2 + 0.5}
          width={Math.max(2, width - 1)}
          y={top}
          height={Math.max(1.5, height)}
        />
      );
    case 'arrow': {
      const half = Math.max(2.6, width * 0.75);
      return (
        <path
          className={`mark-of${out}`}
          d={`M${x - 0.8} ${zeroY}h1.6V${endY}h-1.6ZM${x - half} ${endY}h${half * 2}L${x} ${endY + away * half * 1.6}Z`}
        />
      );
    }
    case 'pin':
      return (
        <g className={`mark-of${out}`}>
          <rect x={x - 0.8} width={1.6} y={top} height={height} />
          <circle cx={x} cy={endY} r={3.6} />
        </g>
      );
    case 'stem':
      return (
        <path className={`mark-of mark-of--stem${out}`} d={`M${x} ${zeroY}V${endY}M${x - 2.6} ${endY}h5.2`} />
      );
  }
}
