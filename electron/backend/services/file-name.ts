/** A file name that every system takes, from words that may hold anything. */
export function fileNameOf(words: readonly string[], extension: 'csv' | 'json' | 'pdf' | 'html'): string {
  const joined = words
    .join(' ')
    .replace(/[^\p{L}\p{N}.-]+/gu, '-')
    .replace(/^[-.]+|[-.]+$/g, '')
    .slice(0, 120);
  return `${joined === '' ? 'tiltwright' : joined}.${extension}`;
}
