import { type ReactNode, type RefObject, useContext } from 'react';
import { PressButton } from '../parts/PressButton.tsx';
import { handBlob } from '../save-file.ts';
import { CopyMenu } from './CopyMenu.tsx';
import { CopiedContext } from './copied.ts';
import { drawPicture } from './picture-file.ts';
import type { ZoomControls } from './use-chart-hand.ts';

export type PictureToolsProps = Readonly<{
  /** Holds the drawing, svg over svg or side by side: what is in it is what is copied. Null while no drawing is shown. */
  box: RefObject<HTMLElement | null> | null;
  /** What is drawn, with its unit: over the picture and in its file's name. */
  title: string;
  /** Whose it is and of when: "07 Mill Lane, 29 November 2026, 09:12". */
  about: string;
  /** The same as numbers. */
  csv: () => string;
  /** Null where nothing is to be had by coming nearer. */
  controls: ZoomControls | null;
  /** What the whole of the axis is called. */
  wholeName?: string;
  /** What can be done with this drawing alone; it stands before the rest. */
  children?: ReactNode;
}>;

/** "07-mill-lane-level-over-frequency" */
const fileNameOf = (words: string): string =>
  words
    .toLowerCase()
    .replace(/[^\p{L}\d]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 80);

/** What can be done with the drawing itself. Where it can be zoomed, its keys do the same. */
export function PictureTools(props: PictureToolsProps) {
  const { box, title, about, csv, controls, wholeName = 'Whole band', children } = props;
  const said = useContext(CopiedContext);
  const copyNumbers = async () => {
    try {
      await navigator.clipboard.writeText(csv());
      said('numbers');
    } catch {
      said('no numbers');
    }
  };
  const copyPicture = async () => {
    if (box === null || box.current === null) return;
    const picture = drawPicture(box.current, { title, about });
    try {
      // The promise itself goes in: some browsers forget the press that allowed it while the picture is drawn.
      await navigator.clipboard.write([new ClipboardItem({ 'image/png': picture })]);
      said('picture');
    } catch {
      try {
        handBlob(`${fileNameOf(`${about} ${title}`)}.png`, await picture);
        said('picture saved');
      } catch {
        said('no picture');
      }
    }
  };
  return (
    <div className="picture-tools" role="toolbar" aria-label="The chart">
      {children}
      <div className="picture-tools__zoom">
        {box === null ? (
          <PressButton rank="quiet" onPress={copyNumbers}>
            Copy numbers
          </PressButton>
        ) : (
          <CopyMenu onNumbers={copyNumbers} onPicture={copyPicture} />
        )}
        {controls !== null && (
          <>
            {!controls.isWhole && (
              <PressButton rank="quiet" onPress={controls.toWhole}>
                {wholeName}
              </PressButton>
            )}
            <PressButton aria-label="Farther" onPress={controls.farther} isDisabled={controls.isWhole}>
              −
            </PressButton>
            <PressButton aria-label="Nearer" onPress={controls.nearer}>
              +
            </PressButton>
          </>
        )}
      </div>
    </div>
  );
}
