import { describe, expect, it } from 'vitest';
import { draftOf, notesOfDraft } from '../../../renderer/state/figures-draft.ts';

const empty = draftOf(undefined, undefined);
const amplifier = { noiseFigureDb: 9, gainDb: 38, ratedAtDbmv: 46, ctbDbc: -73, csoDbc: -70 };

describe('the figures of a data sheet', () => {
  it('come out as they went in', () => {
    const cascade = { alikeAhead: 3, source: { cnrDb: 52, merDb: 42 } };
    expect(notesOfDraft(draftOf(amplifier, cascade))).toEqual({ amplifier, cascade });
    expect(notesOfDraft(draftOf(amplifier, { fedBy: 'a' }))).toEqual({ amplifier, cascade: { fedBy: 'a' } });
  });
  it('may be written with or without the minus', () =>
    expect(notesOfDraft({ ...empty, noiseFigureDb: 9, ratedAtDbmv: 46, ctbDbc: 73 })).toEqual({
      amplifier: { noiseFigureDb: 9, ratedAtDbmv: 46, ctbDbc: -73 },
      cascade: undefined,
    }));
  it('of a source are not kept for a station that another one feeds', () =>
    expect(notesOfDraft({ ...empty, noiseFigureDb: 9, fedBy: 'a', sourceCnrDb: 50, alikeAhead: 2 })).toEqual({
      ...{ amplifier: { noiseFigureDb: 9 }, cascade: { fedBy: 'a' } },
    }));
  it.each([
    ['no noise figure', { ...empty, gainDb: 30 }, 'enter it'],
    ['a rating without its level', { ...empty, noiseFigureDb: 9, csoDbc: -60 }, 'at which output level'],
    ['a noise figure that no amplifier has', { ...empty, noiseFigureDb: 400 }, 'Noise figure: '],
    ['half a station', { ...empty, noiseFigureDb: 9, alikeAhead: 2.5 }, 'Stations alike ahead: '],
  ])('are refused in words: %s', (_what, draft, words) => {
    const told = notesOfDraft(draft);
    expect('wrong' in told ? told.wrong : '').toContain(words);
  });
});
