import { createContext } from 'react';

/** What came of copying a chart; where the clipboard takes no picture it is saved as a file instead. */
export type Copied = 'numbers' | 'picture' | 'picture saved' | 'no numbers' | 'no picture';

/** Says it to the person. */
export const CopiedContext = createContext<(copied: Copied) => void>(() => undefined);
