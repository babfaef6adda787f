import { EventEmitter } from 'node:events';
import { createInterface } from 'node:readline';

// What Electron gives to a utility process, for the built backend in a plain Node: a line of JSON on standard input is
// a message from the parent, a line on standard output one to it.
const parentPort = Object.assign(new EventEmitter(), {
  postMessage: (message: unknown) => process.stdout.write(`${JSON.stringify(message)}\n`),
});
Object.assign(process, { parentPort });
createInterface({ input: process.stdin }).on('line', (line) =>
  parentPort.emit('message', { data: JSON.parse(line) }),
);
