function hand(fileName: string, part: BlobPart, type: string): void {
  const address = URL.createObjectURL(new Blob([part], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** Hands a text to the person as a file, in the window and in the browser alike. */
export const saveFile = (fileName: string, text: string): void =>
  hand(fileName, text, `${fileName.endsWith('.json') ? 'application/json' : 'text/csv'};charset=utf-8`);

type Place = Readonly<{
  createWritable(): Promise<Readonly<{ write(text: string): Promise<void>; close(): Promise<void> }>>;
}>;
type AskForPlace = (options: Readonly<{ suggestedName: string }>) => Promise<Place>;

/** A no that comes sooner was said by no person: nobody was asked. */
const QUICKER_THAN_A_HAND_MS = 150;

/**
 * Asks where a text goes, where the page can ask: another drive, say. Elsewhere the window or the browser asks, or takes
 * the folder that it always takes.
 * @returns  false when the person chose no place
 */
export async function saveFileElsewhere(fileName: string, text: string): Promise<boolean> {
  const ask = 'showSaveFilePicker' in window ? (window.showSaveFilePicker as AskForPlace) : null;
  const askedAtMs = performance.now();
  try {
    const place = await ask?.({ suggestedName: fileName });
    if (place !== undefined) {
      const file = await place.createWritable();
      await file.write(text);
      await file.close();
      return true;
    }
  } catch (fault) {
    const isNo = fault instanceof DOMException && fault.name === 'AbortError';
    if (isNo && performance.now() - askedAtMs > QUICKER_THAN_A_HAND_MS) return false;
    // The window lets no page ask, a system has no dialog to show, a drive refuses: then the usual way.
  }
  saveFile(fileName, text);
  return true;
}

/** The same for what is whole already. */
export const handBlob = (fileName: string, file: Blob): void => hand(fileName, file, file.type);

/** The same for a whole file that crossed the bridge as base64. */
export const saveBase64 = (fileName: string, base64: string, mediaType: string): void =>
  hand(
    fileName,
    Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)),
    mediaType,
  );
