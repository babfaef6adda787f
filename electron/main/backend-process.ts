import { parseArgs } from 'node:util';
import { openBackend } from '../backend/backend.ts';
import { createLog } from '../backend/log.ts';
import { faultsTo } from '../hosts/fault-log.ts';
import { runBackendService } from './backend-service.ts';

// Started by the main process as a utility process: a fault in a native module ends this process, not the window.
const { values } = parseArgs({ options: { data: { type: 'string' } } });
if (values.data === undefined) throw new Error('the backend is started with --data=FOLDER');

await runBackendService({
  port: {
    postMessage: (message) => process.parentPort.postMessage(message),
    onMessage: (listener) => process.parentPort.on('message', (event) => listener(event.data)),
  },
  openBackend,
  dataDir: values.data,
  onFault: faultsTo(createLog(values.data)),
  exit: (code) => process.exit(code),
});
