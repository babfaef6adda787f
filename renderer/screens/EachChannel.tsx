import { Segments } from '../parts/Segments.tsx';
import { type Repeats, repeatChoices } from '../state/run-slice.ts';
import { selectRepeats } from '../state/select.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';

const words = (repeats: Repeats): string => (repeats === 1 ? 'Read once' : `Mean of ${repeats}`);

/** How often each channel of a sweep is read: a mean of several is for a restless level, and takes as many times as long. */
export function EachChannel() {
  const repeats = useSelected(selectRepeats);
  const { repeatsChosen } = useActions();
  return (
    <div className="ways ways--close">
      <span className="ways__label">Each channel</span>
      <Segments
        label="Each channel"
        chosen={String(repeats)}
        onChoose={(key) => {
          const chosen = repeatChoices.find((one) => String(one) === key);
          if (chosen !== undefined) repeatsChosen(chosen);
        }}
        options={repeatChoices.map((one) => ({ key: String(one), text: words(one) }))}
      />
    </div>
  );
}
