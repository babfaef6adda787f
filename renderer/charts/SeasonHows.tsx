import { HowButton } from '../parts/HowButton.tsx';
import type { SeasonMarker } from './SeasonOverlay.tsx';
import { type Span, xAt } from './scale.ts';
import { markerPlace, type SeasonPlots } from './season-scale.ts';

export type SeasonHowsProps = Readonly<{
  markers: readonly SeasonMarker[];
  plots: SeasonPlots;
  span: Span;
}>;

/** A finger needs this much; the words are drawn smaller. */
const TARGET = 44;
const LETTER = 7.6;

/** The markers of a season as what can be pressed: each lies over its words, which are part of the drawing. */
export const SeasonHows = ({ markers, plots, span }: SeasonHowsProps) =>
  markers
    .filter(({ at }) => at >= span.low && at <= span.high)
    .map((marker) => {
      const { x, y, leftward } = markerPlace(plots, xAt(plots.levels, span, marker.at), marker.in);
      const width = Math.max(TARGET, Math.round(marker.words.length * LETTER));
      return (
        <span
          key={marker.key}
          className="picture-over__place"
          style={{ left: leftward ? x - width : x, top: y - 5 - TARGET / 2, width, height: TARGET }}
        >
          <HowButton how={marker.how} label={marker.words} className="how-button--over">
            {null}
          </HowButton>
        </span>
      );
    });
