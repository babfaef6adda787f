const NOBODY = 65_534;

/** Root may read and write everywhere: for a moment this process is nobody. */
export function asNobody<T>(work: () => T): T {
  const isRoot = process.geteuid?.() === 0;
  if (isRoot) process.seteuid?.(NOBODY);
  try {
    return work();
  } finally {
    if (isRoot) process.seteuid?.(0);
  }
}
