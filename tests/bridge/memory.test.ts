import { memoryHost } from '../support/joined-wires.ts';
import { bridgeSuite } from './bridge-suite.ts';

bridgeSuite('two joined ends in memory', async (handlers) => {
  const host = memoryHost(handlers);
  return {
    emit: host.emit,
    get faults() {
      return host.faults.map(({ fault }) => fault);
    },
    async join() {
      const { wire, cut } = host.join();
      return { wire, goAway: () => cut() };
    },
    close: async () => {},
  };
});
