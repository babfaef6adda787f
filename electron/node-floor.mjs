// Loaded with --import before anything else, in plain JavaScript, because an old Node reads neither TypeScript nor this
// program's SQLite: that one ends Node 20 with a segmentation fault instead of an error.
if (Number(process.versions.napi) < 10 || Number.parseInt(process.versions.node, 10) < 24) {
  process.stderr.write(
    `Tiltwright needs Node 24 or newer; this is ${process.version}. ` +
      '"npm ci" brings one on Linux and Windows; on macOS install Node 24 from nodejs.org.\n',
  );
  process.exit(1);
}
