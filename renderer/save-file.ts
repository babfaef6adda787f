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
  hand(fileName, text, 'text/csv;charset=utf-8');

/** The same for what is whole already. */
export const handBlob = (fileName: string, file: Blob): void => hand(fileName, file, file.type);

/** The same for a whole file that crossed the bridge as base64. */
export const saveBase64 = (fileName: string, base64: string, mediaType: string): void =>
  hand(
    fileName,
    Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)),
    mediaType,
  );
