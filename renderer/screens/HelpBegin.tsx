import { PressButton } from '../parts/PressButton.tsx';
import { selectStations, selectTour } from '../state/select.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';

const steps: readonly string[] = [
  'Open a station from the list; on the invented network, 07 Mill Lane.',
  'Read the cautions and begin the visit. They are asked once a visit, never again in it.',
  'Read the port with the meter, the simulated one or your own. The finding is said in words, before any number.',
  'Fit what is proposed and read again. The new sweep must lie on the dotted line, and that is the proof.',
];

/** How the main job goes, and the way back to the cards that walk along with it. */
export function HelpBegin() {
  const tour = useSelected(selectTour);
  const stations = useSelected(selectStations);
  const { tourBecame, helpClosed } = useActions();
  const { loadDemo } = useWorkbench();
  const isEmpty = stations.at === 'listed' && stations.rows.length === 0;
  const walk = async () => {
    helpClosed();
    tourBecame('on');
    if (isEmpty) await loadDemo();
  };
  return (
    <div className="begin-help">
      <ol className="begin-help__steps">
        {steps.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ol>
      <p className="quiet">
        {isEmpty
          ? 'The archive is empty: the invented harbour town of Quillmere is set up for it, with a simulated meter.'
          : 'The cards stand in a line over the screen, say the next thing to do, and cover nothing.'}
      </p>
      <div className="panel__end">
        {tour === 'on' ? (
          <PressButton size="visit" onPress={() => tourBecame('put-away')}>
            No more cards
          </PressButton>
        ) : (
          <PressButton rank="do" size="visit" onPress={walk}>
            Walk along with cards
          </PressButton>
        )}
      </div>
    </div>
  );
}
