import { Button } from 'react-aria-components';
import { Glyph } from '../parts/Glyph.tsx';
import { selectDiskIsInNeed, selectNotice, selectTour } from '../state/select.ts';
import { TOUR_STEPS, tourCard } from '../state/tour-steps.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';

const selectCard = (state: Parameters<typeof tourCard>[0]): string => JSON.stringify(tourCard(state));

/**
 * The first steps, one card at a time: a line over the screen that covers nothing of it. A message goes before it.
 */
export function TourStrip() {
  const tour = useSelected(selectTour);
  const notice = useSelected(selectNotice);
  const diskIsInNeed = useSelected(selectDiskIsInNeed);
  const said = useSelected(selectCard);
  const { tourBecame } = useActions();
  const card: ReturnType<typeof tourCard> = JSON.parse(said);
  if (tour !== 'on' || card === null || notice !== null || diskIsInNeed) return null;
  return (
    <section className="tour" aria-label="First steps">
      <span className="tour__step" aria-hidden="true">
        {card.step}
      </span>
      <p className="tour__words" role="status">
        <span className="unseen">{`Step ${card.step} of ${TOUR_STEPS}. `}</span>
        <strong>{card.next}</strong> {card.why}
      </p>
      <span className="tour__way" aria-hidden="true">
        {[1, 2, 3, 4].map((step) => (
          <span key={step} className={step <= card.step ? 'tour__dot tour__dot--gone' : 'tour__dot'} />
        ))}
      </span>
      <Button className="tour__away" onPress={() => tourBecame('put-away')}>
        <Glyph name="close" /> No more of these
      </Button>
    </section>
  );
}
