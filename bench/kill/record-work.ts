import { setTimeout as rest } from 'node:timers/promises';
import { FIRST_SETTINGS } from '../../core/bridge/settings-calls.ts';
import { orderedJson } from '../../electron/backend/archive/quantities.ts';
import { stationFile } from '../../tests/support/station-file.ts';
import { below, oneOf, shuffled, stationOf, visitAt, type Work } from './work.ts';

const IMPORTING = 'importing a sweep from a file';
const RECORD = 'keeping another record';

/** Sweeps from files, and every small record that a hand makes: one after the other, in any order. */
export async function recordWork(work: Work): Promise<void> {
  const { call, signal, chance, tell, enter, leave, head, order } = work;
  const stationId = await stationOf(work, stationFile({ id: 'quayside', name: 'Quayside 4' }));
  const imported: string[] = [];

  const importFile = async () => {
    const visitId = await visitAt(work, stationId);
    const levels = Array.from({ length: 20 + below(chance, 400) }, () => below(chance, 400) * 100);
    const fileName = `${order.seed}-${below(chance, 1e9)}.csv`;
    const rows = levels.map((level, i) => `${54 + i * 2},${level / 1000}`);
    tell({ say: 'importing', fileName, levels });
    enter(IMPORTING);
    const asked = { visitId, portName: 'forward output', purpose: 'check', testPointLossDb: 0 } as const;
    const text = `frequency_mhz,level_dbmv\n${rows.join('\n')}\n`;
    const { sweepId } = await call['sweeps.import']({ ...asked, fileName, text }, signal);
    tell({ say: 'imported', sweepId, fileName });
    imported.push(sweepId);
    leave(IMPORTING);
  };
  const changeSettings = async () => {
    const { revision } = await call['settings.read']({}, signal);
    const visitEveryMonths = 1 + (revision % 120);
    const kept = await call['settings.change'](
      { basedOn: revision, settings: { ...FIRST_SETTINGS, visitEveryMonths } },
      signal,
    );
    tell({ say: 'settings', revision: kept.revision, json: orderedJson(kept.settings) });
  };
  const changeNotes = async () => {
    const { revision } = await call['notes.read']({ stationId }, signal);
    const rangeDb: [number, number] = [-1 - (revision % 30), below(chance, 600) / 10];
    const notes = {
      format: 'tiltwright-station-notes/1' as const,
      trims: [{ name: 'gain', kind: 'gain' as const, rangeDb, atMhz: 870 }],
    };
    const kept = await call['notes.change']({ stationId, basedOn: revision, notes }, signal);
    tell({ say: 'notes', stationId, revision: kept.revision, json: orderedJson(kept.notes) });
  };
  /** A pad of the truck goes in and the other comes out, so that always one of the two is in the truck. */
  const fitPad = async () => {
    const before = await call['truck.read']({}, signal);
    if (before.truck === null) {
      const parts = [1, 2].map((valueDb) => ({ kind: 'pad' as const, valueDb, count: 1 }));
      await call['truck.change'](
        { basedOn: before.revision, truck: { format: 'tiltwright-truck/1', parts } },
        signal,
      );
    }
    const visitId = await visitAt(work, stationId);
    const from = (await call['stations.open']({ stationId }, signal)).pluggedIn['input pad'] ?? 0;
    const toValue = from === 1 ? 2 : 1;
    const changes = [{ position: 'input pad', from, to: toValue }];
    const { fittings } = await call['parts.fit']({ visitId, changes, proposal: null }, signal);
    for (const { fittingId } of fittings) tell({ say: 'fitted', stationId, fittingId, toValue });
    const { revision, truck } = await call['truck.read']({}, signal);
    tell({ say: 'truck', revision, json: orderedJson(truck) });
  };
  const amend = async () => {
    if (imported.length === 0) return;
    const [sweepId = ''] = imported.splice(below(chance, imported.length), 1);
    const said = { sweepId, reason: `because ${below(chance, 1e6)}`, operator: 'R. Voss' };
    if (chance() < 0.5) {
      await call['sweeps.void'](said, signal);
      tell({ say: 'voided', ...said });
    } else {
      const made = await call['sweeps.correct']({ ...said, testPointLossDb: 16 }, signal);
      tell({ say: 'corrected', sweepId, correctedId: made.sweepId, reason: said.reason });
    }
  };
  const endVisit = async () => {
    const visitId = await visitAt(work, stationId);
    const note = `left ${below(chance, 1e6)}`;
    await call['visits.end']({ visitId, note }, signal);
    tell({ say: 'visit-ended', visitId, note });
  };
  const redesign = async () => {
    const name = `Gatehouse ${below(chance, 1e6)}`;
    await stationOf(work, stationFile({ id: 'gatehouse', name }));
  };

  const kept = (act: () => Promise<void>) => async () => {
    enter(RECORD);
    await act();
    leave(RECORD);
  };
  const acts = [
    importFile,
    importFile,
    ...[changeSettings, changeNotes, fitPad, amend, endVisit, redesign].map(kept),
  ];
  const first = order.first === IMPORTING ? importFile : order.first === RECORD ? kept(fitPad) : null;
  await first?.();
  for (;;)
    for (const act of shuffled(chance, acts)) {
      await act();
      head();
      await rest(oneOf(chance, [0, 1, 5, 20]));
    }
}
