/** Text as it reads, whatever keeps its words together. */
export const plain = (text: string | null | undefined) => (text ?? '').replaceAll('\u00A0', ' ');
