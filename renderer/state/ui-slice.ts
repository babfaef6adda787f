import type { StateCreator } from 'zustand/vanilla';
import type { Encoding } from '../../core/files/encoding.ts';

export type Theme = 'sun' | 'night';

/** Sizes of all text, in percent of what the system has. */
export const textSizes = [100, 125, 150, 175, 200] as const;
export type TextSize = (typeof textSizes)[number];

/** One dialog at a time. */
export type Dialog =
  | Readonly<{ open: 'none' }>
  | Readonly<{ open: 'meter' }>
  | Readonly<{ open: 'begin-visit' }>
  | Readonly<{ open: 'end-visit' }>
  | Readonly<{ open: 'position'; position: string }>
  | Readonly<{ open: 'others' }>
  | Readonly<{ open: 'settings' }>
  | Readonly<{ open: 'truck' }>
  | Readonly<{ open: 'line-up' }>
  | Readonly<{ open: 'trims' }>
  | Readonly<{ open: 'amend-sweep' }>
  | Readonly<{
      open: 'import-sweep';
      fileName: string;
      text: string;
      note: string | null;
      encoding: Encoding | null;
    }>;

export type Notice = Readonly<{
  tone: 'problem' | 'news';
  text: string;
  help: string;
  /** Takes back what is said; only for what is no record. */
  undo?: Readonly<{ go: () => void }>;
}> | null;

export type Link =
  | Readonly<{ at: 'opening' }>
  | Readonly<{ at: 'open'; version: string; archivePath: string; profiles: readonly Profile[] }>
  | Readonly<{ at: 'closed'; why: string }>;
export type Profile = Readonly<{ name: string; title: string }>;

export type UiSlice = {
  link: Link;
  theme: Theme;
  textSize: TextSize;
  operator: string;
  dialog: Dialog;
  notice: Notice;
  face: 'chart' | 'table';
  /** What the person asked for that is not yet done; its button waits. */
  busy: string | null;
  linkBecame(link: Link): void;
  themeChosen(theme: Theme): void;
  textSizeChosen(textSize: TextSize): void;
  operatorNamed(operator: string): void;
  dialogOpened(dialog: Dialog): void;
  /** What that dialog asked for is done. It closes, unless the person is in another one by now. */
  dialogDone(which: Dialog['open']): void;
  noticed(notice: Notice): void;
  faceChosen(face: 'chart' | 'table'): void;
  busyWith(what: string | null): void;
};

export const createUiSlice: StateCreator<UiSlice> = (set) => ({
  link: { at: 'opening' },
  theme: 'sun',
  textSize: 100,
  operator: '',
  dialog: { open: 'none' },
  notice: null,
  face: 'chart',
  busy: null,
  linkBecame: (link) => set({ link }),
  themeChosen: (theme) => set({ theme }),
  textSizeChosen: (textSize) => set({ textSize }),
  operatorNamed: (operator) => set({ operator }),
  dialogOpened: (dialog) => set({ dialog }),
  dialogDone: (which) => set(({ dialog }) => (dialog.open === which ? { dialog: { open: 'none' } } : {})),
  noticed: (notice) => set({ notice }),
  faceChosen: (face) => set({ face }),
  busyWith: (busy) => set({ busy }),
});
