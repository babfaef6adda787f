import type { PlotBox } from './scale.ts';

/** One line of the card beside the crosshair. */
export type CrossLine = Readonly<{ key: string; name: string; text: string }>;
/** A level that stands on the crosshair. */
export type CrossMark = Readonly<{ key: string; y: number; shape: 'round' | 'square' }>;

export type CrosshairProps = Readonly<{
  at: number;
  plot: PlotBox;
  /** The foot of the line, under all that is drawn. */
  bottom: number;
  /** What it stands on: "603 MHz". */
  where: string;
  lines: readonly CrossLine[];
  marks: readonly CrossMark[];
  /** Points of what is drawn: the card stands where fewer of them run behind it. */
  behind: readonly Readonly<{ x: number; y: number }>[];
  /** False where a drawing beside this one has the card. */
  withCard?: boolean;
}>;

const LEAST_WIDTH = 186;
const LETTER = 7.7;
const LINE = 21;
const ASIDE = 14;
const shapes = { round: 'M-5 0a5 5 0 1 0 10 0 5 5 0 1 0-10 0Z', square: 'M-4.5-4.5h9v9h-9Z' } as const;

/** A line through one measured place, a mark on each level, and a card with every value, where it hides least. */
export function Crosshair(props: CrosshairProps) {
  const { at, plot, bottom, where, lines, marks, behind, withCard = true } = props;
  const letters = Math.max(where.length, ...lines.map(({ name, text }) => name.length + text.length + 2));
  const width = Math.max(LEAST_WIDTH, Math.round(letters * LETTER) + 24);
  const height = LINE * (lines.length + 1) + 14;
  const rightward = at + ASIDE + width < plot.right || at - ASIDE - width < plot.left;
  const left = Math.max(plot.left, Math.min(plot.right - width, rightward ? at + ASIDE : at - ASIDE - width));
  const hidden = behind.filter(({ x }) => x >= left && x <= left + width);
  const mean = hidden.reduce((sum, { y }) => sum + y, 0) / Math.max(1, hidden.length);
  const high = hidden.length > 0 && mean < (plot.top + plot.bottom) / 2;
  const top = high ? Math.max(plot.top, plot.bottom - height - 4) : plot.top + 4;
  return (
    <g className="readout">
      <line className="cursor" x1={at} x2={at} y1={plot.top} y2={bottom} />
      {marks.map(({ key, y, shape }) => (
        <path key={key} className="readout__mark" transform={`translate(${at} ${y})`} d={shapes[shape]} />
      ))}
      {withCard && (
        <g transform={`translate(${left} ${top})`}>
          <rect className="readout__card" width={width} height={height} rx={6} />
          <text className="readout__where" x={12} y={LINE + 1}>
            {where}
          </text>
          {lines.map(({ key, name, text }, i) => (
            <g key={key} transform={`translate(0 ${LINE * (i + 2) + 2})`}>
              <text className="readout__name" x={12}>
                {name}
              </text>
              <text className="readout__value" x={width - 12} textAnchor="end">
                {text}
              </text>
            </g>
          ))}
        </g>
      )}
    </g>
  );
}
