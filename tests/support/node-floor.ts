/** better-sqlite3 13 ends an older Node with a segmentation fault, not an error: refuse before anything is loaded. */
export default function nodeFloor(): void {
  if (Number(process.versions.napi) < 10 || Number.parseInt(process.versions.node, 10) < 24) {
    throw new Error(
      `The tests need Node 24 or newer; this is ${process.version}. "npm ci" installs one on Linux and Windows.`,
    );
  }
}
