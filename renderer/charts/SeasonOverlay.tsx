import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { levelWord, oneDecimal } from '../format.ts';
import type { How } from '../how/how.ts';
import { AxisUnit } from './AxisUnit.tsx';
import { Crosshair } from './Crosshair.tsx';
import type { SeasonPoint } from './SeasonPicture.tsx';
import { apart, type Span, xAt, yAt } from './scale.ts';
import { markerPlace, type SeasonPlots, temperatureTicks } from './season-scale.ts';
import { seasonValues, temperatureWords } from './season-values.ts';

/** A temperature at which something begins or ends. */
export type SeasonMarker = Readonly<{
  key: string;
  at: number;
  words: string;
  tone: 'plain' | 'bad';
  /** Where its words stand: at the top or the foot of the levels, or at the control. */
  in: 'top' | 'foot' | 'control';
  how: How;
}>;

export type SeasonOverlayProps = Readonly<{
  points: readonly SeasonPoint[];
  names: Readonly<{ low: string; high: string; band: string }>;
  reach: Readonly<{ upDb: number; downDb: number }> | null;
  markers: readonly SeasonMarker[];
  unit: string;
  levelUnit: LevelUnitName;
  plots: SeasonPlots;
  spans: Readonly<{ at: Span; level: Span; control: Span }>;
  width: number;
  height: number;
  /** What the crosshair stands on; null where it is nowhere. */
  cursor: SeasonPoint | null;
}>;

/** What is written on the season: names at the line ends, the limits, and where something runs out. */
export function SeasonOverlay(props: SeasonOverlayProps) {
  const { points, names, reach, plots, spans, width, height, cursor } = props;
  const { levels, control } = plots;
  const x = (at: number) => xAt(levels, spans.at, at);
  const yLevel = (levelDbmv: number) => yAt(levels, spans.level, levelDbmv);
  const yControl = (db: number) => yAt(control, spans.control, db);
  const isSeen = ({ at }: Readonly<{ at: number }>) => at >= spans.at.low && at <= spans.at.high;
  const markers = props.markers.filter(isSeen);
  const seen = points.filter(isSeen);
  const last = seen.at(-1);
  const right = levels.right + 10;
  const ends =
    last === undefined
      ? []
      : apart(
          [
            { key: 'high', text: names.high, x: right, y: yLevel(last.highDbmv) },
            { key: 'low', text: names.low, x: right, y: yLevel(last.lowDbmv) },
          ],
          20,
          levels,
        );
  return (
    <svg className="overlay" width={width} height={height} aria-hidden="true">
      <AxisUnit unit={levelWord(props.levelUnit)} x={levels.left - 8} y={levels.top - 12} />
      <text className="tick tick--unit" x={levels.left + 4} y={levels.top - 12}>
        {names.band}
      </text>
      <text className="tick tick--unit" x={control.left - 8} y={control.top - 10} textAnchor="end">
        dB
      </text>
      {ends.map(({ key, text, y }) => (
        <text key={key} className={`label label--${key === 'high' ? 'found' : 'low'}`} x={right} y={y + 5}>
          {text}
        </text>
      ))}
      {reach !== null &&
        [
          { db: reach.upDb, words: `+${oneDecimal(reach.upDb)}, its end` },
          { db: -reach.downDb, words: `\u2212${oneDecimal(reach.downDb)}, its end` },
        ].map(({ db, words }) => (
          <g key={words}>
            <line
              className="season__limit"
              x1={control.left}
              x2={control.right}
              y1={yControl(db)}
              y2={yControl(db)}
            />
            <text className="label" x={right} y={yControl(db) + 5}>
              {words}
            </text>
          </g>
        ))}
      {markers.map(({ key, at, tone }) => (
        <line
          key={key}
          className={`season__marker season__marker--${tone}`}
          x1={x(at)}
          x2={x(at)}
          y1={levels.top}
          y2={control.bottom}
        />
      ))}
      <text className="season__words" x={control.left + 4} y={control.top - 10}>
        the control, from where it was set
      </text>
      {markers.map((marker) => (
        <MarkerWords key={marker.key} marker={marker} x={x(marker.at)} plots={plots} />
      ))}
      {temperatureTicks(spans.at).map((at) => (
        <g key={at}>
          <line
            className="strip__tick"
            x1={x(at)}
            x2={x(at)}
            y1={control.bottom + 4}
            y2={control.bottom + 10}
          />
          <text className="tick" x={x(at)} y={control.bottom + 26} textAnchor="middle">
            {temperatureWords(at)}
          </text>
        </g>
      ))}
      <text className="tick tick--unit" x={right + 8} y={control.bottom + 26}>
        {props.unit}
      </text>
      {cursor !== null && isSeen(cursor) && (
        <Crosshair
          at={x(cursor.at)}
          plot={levels}
          bottom={control.bottom}
          where={`${temperatureWords(cursor.at)} ${props.unit}`}
          lines={seasonValues(cursor, names, props.levelUnit)}
          marks={[
            { key: 'high', y: yLevel(cursor.highDbmv), shape: 'round' },
            { key: 'low', y: yLevel(cursor.lowDbmv), shape: 'square' },
            { key: 'control', y: yControl(cursor.controlDb), shape: 'round' },
          ]}
          behind={seen.flatMap((one) =>
            [one.highDbmv, one.lowDbmv].map((levelDbmv) => ({ x: x(one.at), y: yLevel(levelDbmv) })),
          )}
        />
      )}
    </svg>
  );
}

type MarkerProps = Readonly<{ marker: SeasonMarker; x: number; plots: SeasonPlots }>;

function MarkerWords({ marker, x, plots }: MarkerProps) {
  const place = markerPlace(plots, x, marker.in);
  const words = { x: place.x, y: place.y, textAnchor: place.leftward ? 'end' : 'start' } as const;
  // The paper around the letters is drawn first and by itself: it would cover the line under them.
  return (
    <>
      <text className="season__words season__words--ground" {...words}>
        {marker.words}
      </text>
      <text className={`season__words season__words--marker season__words--${marker.tone}`} {...words}>
        {marker.words}
      </text>
    </>
  );
}
