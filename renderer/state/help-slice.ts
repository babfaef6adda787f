import type { StateCreator } from 'zustand/vanilla';

/** What the help shows: the words of the trade, the keys, or how to begin. */
export type HelpFace = 'terms' | 'keys' | 'begin';
export type Help = Readonly<{ at: 'closed' }> | Readonly<{ at: 'open'; face: HelpFace; term: string | null }>;

/** Help stands beside the dialogs and not among them: it is looked at while one is open, and nothing in it is lost. */
export type HelpSlice = {
  help: Help;
  helpOpened(face: HelpFace, term?: string | null): void;
  helpClosed(): void;
};

export const createHelpSlice: StateCreator<HelpSlice> = (set) => ({
  help: { at: 'closed' },
  helpOpened: (face, term = null) => set({ help: { at: 'open', face, term } }),
  helpClosed: () => set({ help: { at: 'closed' } }),
});
