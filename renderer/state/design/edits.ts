import {
  emptyPort,
  emptyPosition,
  type PortDraft,
  type PositionDraft,
  type StageDraft,
  type StationDraft,
} from './draft.ts';

const kindWords: Record<PositionDraft['kind'], string> = {
  pad: 'pad',
  equalizer: 'equalizer',
  'cable-simulator': 'cable simulator',
};
const placeWords: Record<PortDraft['direction'], readonly string[]> = {
  forward: ['input', 'interstage', 'output'],
  return: ['return', 'return input', 'return output'],
};

const nextKey = (parts: readonly Readonly<{ key: number }>[]): number =>
  Math.max(-1, ...parts.map(({ key }) => key)) + 1;

/** The first name that is free; the trade's words before numbers. */
function freeName(wanted: readonly string[], fallback: string, taken: ReadonlySet<string>): string {
  const free = wanted.find((name) => !taken.has(name));
  if (free !== undefined) return free;
  let n = 2;
  while (taken.has(`${fallback} ${n}`)) n += 1;
  return `${fallback} ${n}`;
}

/** A change of one port. */
export const withPort = (draft: StationDraft, key: number, change: Partial<PortDraft>): StationDraft => ({
  ...draft,
  ports: draft.ports.map((port) => (port.key === key ? { ...port, ...change } : port)),
});

/** A change of one plug-in. */
export const withPosition = (
  draft: StationDraft,
  key: number,
  change: Partial<PositionDraft>,
): StationDraft => ({
  ...draft,
  positions: draft.positions.map((one) => (one.key === key ? { ...one, ...change } : one)),
});

/** One more plug-in on a port's way, before the one that stands at `at` now. A kit that another of its kind has is its own too. */
export function withAdded(
  draft: StationDraft,
  portKey: number,
  at: number,
  kind: PositionDraft['kind'],
): Readonly<{ draft: StationDraft; key: number }> {
  const port = draft.ports.find(({ key }) => key === portKey);
  const key = nextKey(draft.positions);
  if (port === undefined) return { draft, key };
  const taken = new Set(draft.positions.map(({ name }) => name));
  const word = kindWords[kind];
  const wanted = placeWords[port.direction].map((place) => `${place} ${word}`);
  const same = draft.positions.find(
    (one) =>
      one.kind === kind &&
      draft.ports.some(({ direction, through }) => direction === port.direction && through.includes(one.key)),
  );
  const added: PositionDraft = {
    ...emptyPosition(key, kind, freeName(wanted, word, taken)),
    ...(same === undefined
      ? {}
      : { kit: same.kit, topMhz: same.topMhz, insertionLossDb: same.insertionLossDb }),
  };
  const through = [...port.through.slice(0, at), key, ...port.through.slice(at)];
  return { draft: withPort({ ...draft, positions: [...draft.positions, added] }, portKey, { through }), key };
}

const dropFrom = (through: readonly number[], gone: number): readonly number[] =>
  through.filter((key) => key !== gone);

/** Without a plug-in on any way. */
export const withoutPosition = (draft: StationDraft, gone: number): StationDraft => ({
  ...draft,
  positions: draft.positions.filter(({ key }) => key !== gone),
  ports: draft.ports.map((port) => ({ ...port, through: dropFrom(port.through, gone) })),
  stage: draft.stage === null ? null : { ...draft.stage, through: dropFrom(draft.stage.through, gone) },
});

/** A plug-in one place earlier (−1) or later (1) on a port's way; the same draft where there is no such place. */
export function withMoved(draft: StationDraft, portKey: number, key: number, by: -1 | 1): StationDraft {
  const port = draft.ports.find((one) => one.key === portKey);
  const from = port?.through.indexOf(key) ?? -1;
  const other = port?.through[from + by];
  if (port === undefined || from < 0 || other === undefined) return draft;
  const through = port.through.map((one) => (one === key ? other : one === other ? key : one));
  return withPort(draft, portKey, { through });
}

/** One more port: a second output, the way back, or a test point that has no design. */
export function withOnePort(
  draft: StationDraft,
  kind: 'forward output' | 'forward input' | 'return output',
): Readonly<{ draft: StationDraft; key: number }> {
  const key = nextKey(draft.ports);
  const name = freeName([kind], kind, new Set(draft.ports.map((port) => port.name)));
  const port = emptyPort(key, kind === 'return output' ? 'return' : 'forward', name);
  const added = kind === 'forward input' ? { ...port, design: null } : port;
  return { draft: { ...draft, ports: [...draft.ports, added] }, key };
}

/** Without a port; plug-ins that only it passed go with it, and a stage that was read there is none. */
export function withoutPort(draft: StationDraft, gone: number): StationDraft {
  const ports = draft.ports.filter(({ key }) => key !== gone);
  const stage = draft.stage?.portKey === gone ? null : draft.stage;
  const used = new Set([...ports.flatMap(({ through }) => through), ...(stage?.through ?? [])]);
  const own = new Set(draft.ports.find(({ key }) => key === gone)?.through ?? []);
  return {
    ...draft,
    ports,
    stage,
    positions: draft.positions.filter(({ key }) => used.has(key) || !own.has(key)),
  };
}

/** The port that a stage's input is read at, where the draft has one that no plug-in stands before. */
export const inputOf = (draft: StationDraft): PortDraft | undefined =>
  draft.ports.find(
    ({ direction, design, through }) => direction === 'forward' && design === null && through.length === 0,
  ) ?? draft.ports.find(({ direction, through }) => direction === 'forward' && through.length === 0);

/** A limit for the first stage: behind the first plug-ins of the way out. Null where the draft has no input port. */
export function newStage(draft: StationDraft): StageDraft | null {
  const input = inputOf(draft);
  const way = draft.ports.find(({ direction, through }) => direction === 'forward' && through.length > 0);
  if (input === undefined || way === undefined) return null;
  return { portKey: input.key, through: way.through.slice(0, 2), atMhz: null, minDbmv: null, maxDbmv: null };
}
