import { Segments } from '../parts/Segments.tsx';
import { selectTextSize } from '../state/select.ts';
import { textSizes } from '../state/ui-slice.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';

/** How large all text is; kept on this computer, like the theme. */
export function TextSizeChoice() {
  const chosen = useSelected(selectTextSize);
  const { textSizeChosen } = useActions();
  return (
    <>
      <p className="units__name">Text</p>
      <Segments
        label="Size of all text"
        chosen={String(chosen)}
        onChoose={(key) => {
          const size = textSizes.find((one) => String(one) === key);
          if (size !== undefined) textSizeChosen(size);
        }}
        options={textSizes.map((size) => ({ key: String(size), text: `${size}\u00A0%` }))}
      />
    </>
  );
}
