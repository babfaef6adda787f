import { type ReactNode, type RefObject, useContext, useState } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { createPortal } from 'react-dom';
import { PictureTools, type PictureToolsProps } from './PictureTools.tsx';
import { Spoken } from './Spoken.tsx';
import type { Span } from './scale.ts';
import { ToolsPlaceContext } from './tools-place.ts';
import type { useChartHand } from './use-chart-hand.ts';

export type ChartFrameProps = Omit<PictureToolsProps, 'box' | 'children'> &
  Readonly<{
    box: RefObject<HTMLDivElement | null>;
    hand: ReturnType<typeof useChartHand>['hand'];
    view: Span;
    cursor: number | null;
    /** What stands under the crosshair, for whoever listens; empty where it is nowhere. */
    words: string;
    /** What the arrows walk: "the channels". */
    stopsName: string;
    /** What can be pressed in the drawing lies over it: a drawing that is walked by keys may hold no button. */
    over?: ReactNode;
    /** The same as a table, where none stands beside. */
    table?: ReactNode;
    /** What can be done with this drawing alone. */
    tools?: ReactNode;
    children: ReactNode;
  }>;

/** What scrolls must be reached by keys as well (WCAG 2.2, 2.1.1), though nothing in it can be pressed. */
const byKeys = { tabIndex: 0 } as const;

/** A chart with its tools: walked by keys, finger and mouse, copied, and shown as a table instead. */
export function ChartFrame(props: ChartFrameProps) {
  const { box, hand, view, cursor, words, stopsName, over, table, tools, children, ...rest } = props;
  const [wanted, setWanted] = useState<'chart' | 'table'>('chart');
  const face = table === undefined ? 'chart' : wanted;
  const place = useContext(ToolsPlaceContext);
  const toolRow = (
    <PictureTools
      {...rest}
      box={face === 'chart' ? box : null}
      controls={face === 'chart' ? rest.controls : null}
    >
      {tools}
      {table !== undefined && (
        <ToggleButtonGroup
          className="segments picture-tools__ways"
          aria-label={`${rest.title}, as`}
          selectionMode="single"
          disallowEmptySelection
          selectedKeys={[face]}
          onSelectionChange={(keys) => setWanted(keys.has('table') ? 'table' : 'chart')}
        >
          <ToggleButton id="chart">Chart</ToggleButton>
          <ToggleButton id="table">Table</ToggleButton>
        </ToggleButtonGroup>
      )}
    </PictureTools>
  );
  return (
    <div className="picture-frame">
      {place === undefined ? toolRow : place !== null && createPortal(toolRow, place)}
      {face === 'table' && (
        <section className="picture-frame__table" aria-label={`${rest.title}, as a table`} {...byKeys}>
          {table}
        </section>
      )}
      <div
        ref={box}
        className="picture"
        hidden={face === 'table'}
        role="slider"
        tabIndex={0}
        aria-label={rest.title}
        aria-valuemin={view.low}
        aria-valuemax={view.high}
        aria-valuenow={cursor ?? view.low}
        aria-valuetext={
          words === '' ? `Left and right walk ${stopsName}, plus and minus zoom, 0 shows the whole` : words
        }
        {...hand}
      >
        {children}
      </div>
      {over !== undefined && face === 'chart' && <div className="picture-over">{over}</div>}
      <Spoken words={words} />
    </div>
  );
}
