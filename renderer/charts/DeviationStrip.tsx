import { isWithinTolerance } from '../../core/line/deviation.ts';
import { bareMhz } from '../format.ts';
import { ChannelMark } from './ChannelMark.tsx';
import type { ChartRow } from './rows.ts';
import { AXIS_HEIGHT, LABEL_WIDTH, type Span, stripHeight, stripPlot, ticksOf, xAt, yAt } from './scale.ts';
import { shapeOf, signalRuns, signalWords } from './signal-marks.ts';

export type DeviationStripProps = Readonly<{
  rows: readonly ChartRow[];
  width: number;
  frequencySpan: Span;
  deviationSpan: Span;
  toleranceDb: number | null;
  /** True while the dotted line stands for something still to be done. */
  predictionOpen: boolean;
  /** Room at the right for names; a strip without it goes unnamed. */
  labelWidth?: number;
}>;

/**
 * How far each channel lies from its design, on the frequency axis of the chart above: a bar a channel. Where several
 * kinds of signal are there, each kind has its own mark, and its name stands over it.
 */
export function DeviationStrip({
  rows,
  width,
  frequencySpan,
  deviationSpan,
  toleranceDb,
  predictionOpen,
  labelWidth = LABEL_WIDTH,
}: DeviationStripProps) {
  const runs = signalRuns(rows);
  const named = labelWidth === LABEL_WIDTH;
  const plot = stripPlot(width, runs.length > 0, labelWidth);
  const height = stripHeight(toleranceDb);
  const y = (db: number) =>
    yAt(plot, deviationSpan, Math.min(deviationSpan.high, Math.max(deviationSpan.low, db)));
  const x = (mhz: number) => xAt(plot, frequencySpan, mhz);
  const barWidth = Math.min(5, Math.max(1.5, ((plot.right - plot.left) / Math.max(1, rows.length)) * 0.66));
  // Once it is done, the dotted line would only hide what the strip is for.
  const predicted = predictionOpen ? rows.filter((row) => row.predictedDeviationDb !== null) : [];
  const predictedLine = predicted
    .map((row) => `${x(row.frequencyMhz).toFixed(1)},${y(row.predictedDeviationDb ?? 0).toFixed(1)}`)
    .join(' ');
  return (
    <svg className="strip" width={width} height={height} aria-hidden="true">
      {toleranceDb !== null && (
        <>
          <rect
            className="strip__band"
            x={plot.left}
            width={plot.right - plot.left}
            y={y(toleranceDb)}
            height={y(-toleranceDb) - y(toleranceDb)}
          />
          {[toleranceDb, -toleranceDb].map((limitDb) => (
            <g key={limitDb}>
              <line className="strip__limit" x1={plot.left} x2={plot.right} y1={y(limitDb)} y2={y(limitDb)} />
              <text className="tick" x={plot.left - 8} y={y(limitDb) + 5} textAnchor="end">
                {`${limitDb > 0 ? '+' : '\u2212'}${Math.abs(limitDb)}`}
              </text>
            </g>
          ))}
          {rows.map((row) =>
            row.deviationDb === null ? null : (
              <ChannelMark
                key={row.frequencyMhz}
                shape={runs.length === 0 ? 'bar' : shapeOf(row.signal)}
                x={x(row.frequencyMhz)}
                zeroY={y(0)}
                endY={y(row.deviationDb)}
                width={barWidth}
                isOut={!isWithinTolerance(row.deviationDb, toleranceDb)}
              />
            ),
          )}
          {signalWords(runs, x, plot).map((word) => (
            <text key={word.key} className="strip__word" x={word.x} y={plot.top - 5} textAnchor="middle">
              {word.text}
            </text>
          ))}
          <line className="strip__zero" x1={plot.left} x2={plot.right} y1={y(0)} y2={y(0)} />
          {predicted.length > 1 && (
            <>
              <polyline className="strip__halo" points={predictedLine} />
              <polyline className="strip__predicted" points={predictedLine} />
            </>
          )}
          {named && (
            <text className="label" x={plot.right + 12} y={y(0) + 5}>
              from design, dB
            </text>
          )}
        </>
      )}
      {ticksOf(frequencySpan, Math.max(3, Math.floor((plot.right - plot.left) / 70))).map((frequencyMhz) => (
        <g key={frequencyMhz}>
          <line
            className="strip__tick"
            x1={x(frequencyMhz)}
            x2={x(frequencyMhz)}
            y1={height - AXIS_HEIGHT + 2}
            y2={height - AXIS_HEIGHT + 8}
          />
          <text className="tick" x={x(frequencyMhz)} y={height - 5} textAnchor="middle">
            {bareMhz(frequencyMhz)}
          </text>
        </g>
      ))}
      {named && (
        <text className="tick tick--unit" x={plot.right + 12} y={height - 5}>
          MHz
        </text>
      )}
    </svg>
  );
}
