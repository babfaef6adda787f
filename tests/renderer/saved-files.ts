import { onTestFinished, vi } from 'vitest';

export type SavedFile = Readonly<{ name: string; blob: Blob }>;

/** What the page hands out as files from now to the end of the test, in that order; jsdom can hand out none. */
export function savedFiles(): readonly SavedFile[] {
  const saved: SavedFile[] = [];
  const { createObjectURL, revokeObjectURL } = URL;
  let last: Blob | null = null;
  URL.createObjectURL = (blob) => {
    last = blob as Blob;
    return 'blob:here';
  };
  URL.revokeObjectURL = () => {};
  const click = vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (
    this: HTMLAnchorElement,
  ) {
    if (last !== null) saved.push({ name: this.download, blob: last });
  });
  onTestFinished(() => {
    click.mockRestore();
    Object.assign(URL, { createObjectURL, revokeObjectURL });
  });
  return saved;
}

export const namesOf = (saved: readonly SavedFile[]): readonly string[] => saved.map(({ name }) => name);
