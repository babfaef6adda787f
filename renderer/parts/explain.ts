import { createContext } from 'react';

/** Opens the help at a word of the trade; null where no help is at hand. */
export const ExplainContext = createContext<((term: string) => void) | null>(null);
