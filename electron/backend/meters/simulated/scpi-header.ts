/** One node of a command's path, e.g. `[SENSe]`: its two spellings, and whether it may be left out. */
export type HeaderNode = Readonly<{ long: string; short: string; optional: boolean }>;

/** How a written header stands to a command: it is it, it is not, or it names an input that is not there. */
export type HeaderMatch = 'match' | 'none' | 'suffix-out-of-range';

/** A path in SCPI's own notation: `READ[:SCALar]:POWer[:AC]`. Capitals are the short form, brackets may be left out. */
export function headerNodes(notation: string): readonly HeaderNode[] {
  return [...notation.matchAll(/(\[)?:?(\*?[A-Za-z]+)\]?/g)].map(([, bracket, name = '']) => ({
    long: name.toUpperCase(),
    short: name.replace(/[a-z]+/g, ''),
    optional: bracket !== undefined,
  }));
}

/** Long or short form and nothing between, in any case; the only input is number 1. */
export function matchHeader(nodes: readonly HeaderNode[], header: readonly string[]): HeaderMatch {
  const [node, ...nodesLeft] = nodes;
  const [written, ...writtenLeft] = header;
  if (node === undefined) return written === undefined ? 'match' : 'none';
  if (written !== undefined) {
    const [, name = '', suffix = ''] = /^(\*?[A-Z_]+)(\d*)$/.exec(written.toUpperCase()) ?? [];
    if (name === node.long || name === node.short) {
      const rest = matchHeader(nodesLeft, writtenLeft);
      if (rest !== 'none') return suffix === '' || Number(suffix) === 1 ? rest : 'suffix-out-of-range';
    }
  }
  return node.optional ? matchHeader(nodesLeft, header) : 'none';
}
