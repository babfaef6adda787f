import {
  type KeyboardEvent,
  type PointerEvent,
  type RefObject,
  useEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { type Grip, gripped, held, isWhole, moved, nearestStop, showing, zoomed } from './axis-view.ts';
import type { Span } from './scale.ts';

export type ChartHandProps = Readonly<{
  box: RefObject<HTMLElement | null>;
  /** The width of the drawing in its own units; the page may show it enlarged. */
  width: number;
  whole: Span;
  /** The least of the axis that may fill the plot. */
  least: number;
  /** Where the crosshair can stand, in rising order. */
  stops: readonly number[];
  /** A place in the drawing as a share of the plot it is in: 0 at its left end, 1 at its right. */
  shareAt: (x: number, y: number) => number;
}>;

export type ZoomControls = Readonly<{
  isWhole: boolean;
  nearer: () => void;
  farther: () => void;
  toWhole: () => void;
  aside: (share: number) => void;
}>;

/** Farther than this with the finger down, CSS pixels, is a drag and no tap. */
const DRAG_PX = 6;
const STEP = 2;

/**
 * Zoom, pan and crosshair of a chart by finger, mouse, wheel with Ctrl, and keys. The view is state of the chart's own; the
 * crosshair stands on values that were measured, never between them.
 */
export function useChartHand({ box, width, whole, least, stops, shareAt }: ChartHandProps) {
  const [chosen, setChosen] = useState<Span | null>(null);
  const [cursor, setCursor] = useState<number | null>(null);
  const grips = useRef(new Map<number, Grip & { startX: number; dragged: boolean }>());
  const limits = useMemo(() => ({ whole, least }), [whole, least]);
  // Another sweep with another band: what was looked at is kept as far as it is there.
  const view = useMemo(() => (chosen === null ? whole : held(chosen, limits)), [chosen, whole, limits]);
  const near = isWhole(view, whole) ? whole : view;
  const at = cursor !== null && stops.includes(cursor) ? cursor : null;

  const zoomBy = (factor: number, around = at ?? (view.low + view.high) / 2) =>
    setChosen((before) => zoomed(before ?? whole, factor, around, limits));
  const shareOf = (event: { clientX: number; clientY: number }): number | null => {
    const place = box.current?.getBoundingClientRect();
    if (place === undefined || width === 0) return null;
    const scale = place.width === 0 ? 1 : place.width / width;
    return shareAt((event.clientX - place.left) / scale, (event.clientY - place.top) / scale);
  };
  const valueAt = (share: number): number => near.low + share * (near.high - near.low);

  const wheel = useRef<(event: WheelEvent) => void>(() => {});
  useEffect(() => {
    wheel.current = (event) => {
      // A trackpad's pinch comes as a wheel with Ctrl; without it the wheel belongs to the page.
      if (!event.ctrlKey) return;
      const share = shareOf(event);
      if (share === null) return;
      event.preventDefault();
      zoomBy(Math.exp(-event.deltaY * 0.0045), valueAt(Math.min(1, Math.max(0, share))));
    };
  });
  useEffect(() => {
    const element = box.current;
    if (element === null) return;
    const turn = (event: WheelEvent) => wheel.current(event);
    // React listens passively, and then the page itself would zoom.
    element.addEventListener('wheel', turn, { passive: false });
    return () => element.removeEventListener('wheel', turn);
  }, [box]);

  function stand(to: number | null): void {
    setCursor(to);
    if (to !== null && chosen !== null) setChosen((before) => showing(before ?? whole, to, limits));
  }

  function onKeyDown(event: KeyboardEvent): void {
    if (event.altKey || event.metaKey || event.ctrlKey) return;
    const index = at === null ? -1 : stops.indexOf(at);
    const stop = (to: number) => stops[Math.min(stops.length - 1, Math.max(0, to))] ?? null;
    const deeds = new Map<string, () => void>([
      ['ArrowLeft', () => (event.shiftKey ? setChosen(moved(near, -0.25, limits)) : stand(stop(index - 1)))],
      ['ArrowRight', () => (event.shiftKey ? setChosen(moved(near, 0.25, limits)) : stand(stop(index + 1)))],
      ['PageDown', () => stand(stop(index - 10))],
      ['PageUp', () => stand(stop(index + 10))],
      ['Home', () => stand(stop(0))],
      ['End', () => stand(stop(stops.length - 1))],
      ['Escape', () => setCursor(null)],
      ['+', () => zoomBy(STEP)],
      ['=', () => zoomBy(STEP)],
      ['-', () => zoomBy(1 / STEP)],
      ['0', () => setChosen(null)],
    ]);
    const deed = deeds.get(event.key);
    if (deed === undefined) return;
    event.preventDefault();
    deed();
  }

  function point(share: number): void {
    setCursor(nearestStop(stops, valueAt(share)));
  }

  function onPointerDown(event: PointerEvent<HTMLElement>): void {
    const share = shareOf(event);
    if (share === null || (event.pointerType === 'mouse' && event.button !== 0)) return;
    for (const [id, grip] of grips.current) grips.current.set(id, { ...grip, value: valueAt(grip.share) });
    grips.current.set(event.pointerId, {
      value: valueAt(share),
      share,
      startX: event.clientX,
      dragged: false,
    });
    if (grips.current.size === 1) point(share);
  }

  function onPointerMove(event: PointerEvent<HTMLElement>): void {
    const share = shareOf(event);
    if (share === null) return;
    const grip = grips.current.get(event.pointerId);
    if (grip === undefined) {
      if (event.pointerType === 'mouse' || event.pointerType === 'pen') point(share);
      return;
    }
    const dragged = grip.dragged || Math.abs(event.clientX - grip.startX) > DRAG_PX;
    grips.current.set(event.pointerId, { ...grip, share, dragged });
    if (grips.current.size > 1 || (dragged && near !== whole))
      setChosen(gripped(near, [...grips.current.values()], limits));
    else point(share);
  }

  function onPointerUp(event: PointerEvent<HTMLElement>): void {
    grips.current.delete(event.pointerId);
    // The finger that stays holds what is under it now.
    for (const [id, grip] of grips.current)
      grips.current.set(id, { ...grip, value: valueAt(grip.share), dragged: true });
  }

  function onPointerLeave(event: PointerEvent<HTMLElement>): void {
    grips.current.delete(event.pointerId);
    // A lifted finger leaves too, and what it pointed at is to stay.
    if (event.pointerType === 'mouse') setCursor(null);
  }

  const controls: ZoomControls = {
    isWhole: near === whole,
    nearer: () => zoomBy(STEP),
    farther: () => zoomBy(1 / STEP),
    toWhole: () => setChosen(null),
    aside: (share) => setChosen(moved(near, share, limits)),
  };
  return {
    view: near,
    cursor: at,
    controls,
    hand: {
      onKeyDown,
      onPointerDown,
      onPointerMove,
      onPointerUp,
      onPointerCancel: onPointerUp,
      onPointerLeave,
    },
  };
}
