import { expect, it } from 'vitest';
import { Station, withPluggedIn } from '../../../../core/files/station.ts';
import { quillmere } from '../../../../core/simulate/quillmere.ts';
import { draftOf, likeDraft, newDraft, type StationDraft } from '../../../../renderer/state/design/draft.ts';
import { newStage, withPort, withPosition } from '../../../../renderer/state/design/edits.ts';
import { completeDesign, idOf, lacksOf, stationOf } from '../../../../renderer/state/design/made.ts';

it.each(quillmere.map(({ station }) => [station.name, station] as const))(
  'takes %s apart and makes the same station of it',
  (_, station) => {
    expect(lacksOf(draftOf(station))).toEqual([]);
    expect(stationOf(draftOf(station))).toEqual({ station });
  },
);

it('describes a station as it is plugged, not as its file once said', () => {
  const [first] = quillmere;
  if (first === undefined) throw new Error('the demo has stations');
  const pluggedIn = { 'input pad': 7, 'no such place': 3 };
  const made = stationOf(draftOf(first.station, pluggedIn));
  expect(made).toEqual({ station: withPluggedIn(first.station, pluggedIn) });
  expect('station' in made && made.station.positions[0]).toMatchObject({ name: 'input pad', installed: 7 });
});

it('keeps a measured loss, an optional key that is there, and leaves out one that is not', () => {
  const station = Station.parse({
    format: 'tiltwright-station/1',
    id: 'x',
    name: 'X',
    ports: [{ name: 'out', direction: 'forward', testPointLossDb: 0, through: ['pad'] }],
    positions: [{ name: 'pad', kind: 'pad', installed: 3, values: [0, 3, 7], curves: { '3': [[54, 3.1]] } }],
    span: { lossDb: 20, topMhz: 870, perDegreeC: 0.002, sky: 'buried' },
    gainControl: { mode: 'thermal', upDb: 4, downDb: 6, topMhz: 870, setAtC: -3, thermalTracking: 0.8 },
  });
  expect(stationOf(draftOf(station))).toEqual({ station });
});

const wordsOf = (draft: StationDraft) => lacksOf(draft).map(({ words }) => words);

it('lists for a new station all that nobody can know but who stands before it', () => {
  expect(wordsOf(newDraft())).toEqual([
    'Name of the station',
    'Forward output: the loss of its test point',
    'Forward output: the low frequency of its design',
    'Forward output: the level there',
    'Forward output: the high frequency of its design',
    'Forward output: the level there',
    'Forward output: how far a channel may be off',
    'Forward output: the flatness',
    'Forward input: the loss of its test point',
    'Input pad: what is in it now',
    'Input pad: which values there are',
    'Input equalizer: what is in it now',
    'Input equalizer: which values there are',
    'Input equalizer: its top frequency',
  ]);
  const made = stationOf(newDraft());
  expect('lacks' in made && made.lacks[0]).toEqual({ part: { at: 'name' }, words: 'Name of the station' });
});

it('says what can not be: ends that cross, limits that cross, one name twice', () => {
  const [first] = quillmere;
  if (first === undefined) throw new Error('the demo has stations');
  const draft = draftOf(first.station);
  const { design } = draft.ports[0] ?? {};
  if (design === undefined || design === null) throw new Error('the first port has a design');
  expect(wordsOf(withPort(draft, 0, { design: { ...design, lowMhz: 900 } }))).toEqual([
    'Forward output: a low frequency below the high one',
  ]);
  expect(wordsOf(withPosition(draft, 1, { name: ' input pad ' }))).toEqual([
    'Input pad: a name of its own',
    'Input pad: a name of its own',
  ]);
  expect(wordsOf({ ...draft, stage: draft.stage && { ...draft.stage, minDbmv: 15 } })).toEqual([
    'Stage input: a lowest level below the highest',
  ]);
});

it('names a station by its name until an id is typed', () => {
  expect(idOf({ id: null, name: ' 09 Tar Steps, östlich ' })).toBe('09-tar-steps-östlich');
  expect(idOf({ id: 'QM-4/9', name: '09 Tar Steps' })).toBe('QM-4/9');
  expect(wordsOf({ ...newDraft(), name: '…' })[0]).toBe('Id of the station');
});

it('begins another station with the design and the kit, and asks for what is in its housing', () => {
  const [first] = quillmere;
  if (first === undefined) throw new Error('the demo has stations');
  const like = likeDraft(first.station);
  expect(wordsOf(like).slice(0, 2)).toEqual(['Name of the station', 'Input pad: what is in it now']);
  expect(like.ports).toEqual(draftOf(first.station).ports);
  expect(like.span).toBeNull();
});

it('draws a design as soon as its ends and its tolerance are said', () => {
  const whole = {
    lowMhz: 54,
    lowDbmv: 36,
    highMhz: 870,
    highDbmv: 46,
    shape: 'cable' as const,
    toleranceDb: 1,
    flatnessDb: null,
  };
  expect(completeDesign(whole)).toMatchObject({ lowDbmv: 36, highDbmv: 46 });
  expect(completeDesign({ ...whole, highDbmv: null })).toBeNull();
  expect(completeDesign({ ...whole, lowMhz: 870 })).toBeNull();
  expect(completeDesign(null)).toBeNull();
});

it('limits the first stage behind the first plug-ins, where there is an input to read', () => {
  expect(newStage(newDraft())).toMatchObject({ portKey: 1, through: [0, 1] });
  expect(newStage({ ...newDraft(), ports: newDraft().ports.slice(0, 1) })).toBeNull();
});
