import { joined } from '../backend/services/joined.ts';

/** A folder whose archive, closed by now, has one visit with one whole sweep. */
export async function recordedFolder(): Promise<Readonly<{ folder: string; sweepId: string }>> {
  const bench = await joined();
  const sweepId = await bench.start();
  await bench.endOf(sweepId);
  await bench.close();
  bench.archive.close();
  return { folder: bench.folder, sweepId };
}
