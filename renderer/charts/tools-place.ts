import { createContext } from 'react';

/**
 * Where a chart's tools go when the screen has a heading row for them, so that they cost the drawing no row of its own.
 * Undefined where there is none: they stand over the drawing then. Null while the row is not there yet.
 */
export const ToolsPlaceContext = createContext<HTMLElement | null | undefined>(undefined);
