import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { CSO_POWER } from '../../core/noise/distortion.ts';
import type { NoiseLimit } from '../../core/noise/limits.ts';
import type { NoiseKey, NoiseRow } from '../../core/noise/noise-report.ts';
import { BOLTZMANN, NOISE_REFERENCE_K } from '../../core/noise/thermal-noise.ts';
import { weightedVideoSnrDb } from '../../core/noise/video-snr.ts';
import { level, oneDecimal, signedDb, sizeDb } from '../format.ts';
import type { NoiseView, Together } from '../state/noise-view.ts';
import { type How, type HowItem, plainHow } from './how.ts';

export const noiseNames: Readonly<Record<NoiseKey, string>> = {
  cnr: 'Carrier to noise',
  ctb: 'Triple beat, CTB',
  cso: 'Second order, CSO',
  xmod: 'Cross modulation',
  mer: 'MER, estimated',
};

/** "48.2 dB", "−57.1 dBc": a distortion is told against the carrier. */
export const noiseFigure = (key: NoiseKey, valueDb: number): string =>
  key === 'cnr' || key === 'mer' ? sizeDb(valueDb) : `${oneDecimal(valueDb)}\u00A0dBc`;

export const limitWords = (key: NoiseKey, { side, limitDb }: NoiseLimit): string =>
  `at ${side} ${noiseFigure(key, limitDb)}`;

function judgedWords({ key, limit, inHandDb, doubtDb, verdict }: NoiseRow): string | null {
  if (limit === null) return null;
  const rule = `${limit.source}${limit.basis === 'from memory' ? ' (from memory)' : ''}: ${limitWords(key, limit)} at the subscriber\u2019s terminal${limit.why === null ? '' : `, because ${limit.why}`}.`;
  if (inHandDb === null) return rule;
  const hand = `${sizeDb(inHandDb)} ${inHandDb >= 0 ? 'in hand' : 'too little'} here; what follows on the way to the terminal takes its share.`;
  const doubt = `A data sheet tells what is typical: an amplifier may lie ${sizeDb(doubtDb)} from it (common practice, no published source)${verdict === 'undecided' ? ', and the limit is nearer than that' : ''}.`;
  return `${rule} ${hand} ${doubt}`;
}

/** Each station's own figure, and what comes to the first. */
function itemsOf(key: NoiseKey, { cascade, report }: NoiseView): readonly HowItem[] {
  const { source, alikeAhead, members } = cascade;
  const came =
    key === 'cnr'
      ? source?.cnrDb
      : key === 'ctb'
        ? source?.ctbDbc
        : key === 'cso'
          ? source?.csoDbc
          : undefined;
  const own = (member: (typeof members)[number]): string => {
    if ('missing' in member) return 'not entered';
    if (key === 'cnr')
      return 'lowDb' in member.cnr
        ? noiseFigure(key, report.worstEnd === 'low' ? member.cnr.lowDb : member.cnr.highDb)
        : 'input not known';
    const found = member.distortions.find((one) => one.kind === key);
    return found === undefined ? 'not entered' : noiseFigure(key, found.valueDbc);
  };
  return [
    ...(came === undefined ? [] : [{ name: 'source', text: noiseFigure(key, came) }]),
    ...(alikeAhead === 0 ? [] : [{ name: `${alikeAhead} alike ahead`, text: 'each as the first' }]),
    ...members.map((member) => ({ name: member.name, text: own(member) })),
  ];
}

/** How a figure of the cascade came about. */
export function howNoise(row: NoiseRow, view: NoiseView, unit: LevelUnitName): How {
  const { key, cascadeDb } = row;
  const value = cascadeDb === null ? 'not told' : noiseFigure(key, cascadeDb);
  const base = { title: `${noiseNames[key]} behind the cascade`, value, judged: judgedWords(row) };
  const { own, distortions, mer } = view.report;
  switch (key) {
    case 'cnr': {
      const snr = cascadeDb === null ? null : weightedVideoSnrDb(cascadeDb);
      const cnr = own !== null && 'lowDb' in own.cnr ? own.cnr : null;
      const end = view.report.worstEnd;
      const stage = cnr === null ? 0 : end === 'low' ? cnr.stage.lowDbmv : cnr.stage.highDbmv;
      const alone =
        own === null || cnr === null
          ? ''
          : ` Here ${level(stage, unit)} comes to the first stage (${cnr.stage.from === 'input sweep' ? 'the newest sweep of the input, less pad and equalizer' : `the output, ${own.output.from === 'sweep' ? 'as last read' : 'by its design'}, less the gain`}), against ${level(cnr.noiseDbmv, unit)} of noise: thermal ${level(cnr.thermalDbmv, unit)} and a noise figure of ${sizeDb(own.noiseFigureDb)}.`;
      return plainHow({
        ...base,
        words: `In ${view.carried.bandwidthMhz} MHz, at the ${end} end of the band, which is the worse one. The noises of all stations add as powers.${alone}${snr?.ok === true && view.carried.judgedAs === 'analog' ? ` To the eye a picture has ${sizeDb(snr.value)}.` : ''}`,
        formula: `C/N = level \u2212 (kTB + noise figure); together \u221210 log \u03A3 10^(\u2212C/N / 10)`,
        items: itemsOf(key, view),
        source: `k = ${BOLTZMANN} J/K (exact), T = ${NOISE_REFERENCE_K} K. cabl.com \u201CCATV Formulas\u201D; Hranac, \u201CBroadband: Total Power, Part 2\u201D. Noise figure: the data sheet, in this station\u2019s notes.`,
      });
    }
    case 'ctb':
    case 'cso':
    case 'xmod': {
      const here = distortions.find((one) => one.kind === key);
      const alone = own?.distortions.find((one) => one.kind === key);
      const perDb = key === 'cso' ? 1 : 2;
      const above = own?.aboveRatingDb ?? 0;
      const law = here?.law.times ?? (key === 'cso' ? 15 : 20);
      return plainHow({
        ...base,
        words:
          alone === undefined
            ? 'The data sheet\u2019s rating is not entered.'
            : `Rated ${noiseFigure(key, alone.ratedDbc)}; the output at the top is ${signedDb(above)} from where that holds, and each dB makes it ${perDb} dB worse. A rating is for so many carriers as the data sheet says.${
                here?.other == null
                  ? ''
                  : ` By ${CSO_POWER.times} log, as others add it, ${noiseFigure(key, here.other.valueDbc)}.`
              }`,
        formula: `${law} log \u03A3 10^(x / ${law})`,
        items: itemsOf(key, view),
        source: `${here?.law.source ?? 'cabl.com \u201CCATV Formulas\u201D'}. ${perDb} dB a dB: ${key === 'cso' ? 'from memory' : 'cabl.com \u201CCATV Formulas\u201D'}.`,
      });
    }
    case 'mer': {
      const { qam, bandwidthMhz } = view.carried;
      const order = qam === null ? '' : `${qam.order}-QAM${qam.isTaken ? ' (taken)' : ''}`;
      return plainHow({
        ...base,
        words: `What may be hoped for with ${order}, carried ${signedDb(qam?.offsetDb ?? 0)} from the design line. An estimate, never a measurement: ${(mer?.assumptions ?? []).join('; ')}.`,
        formula: `C/N + offset \u2212 10 log(symbol rate / ${bandwidthMhz} MHz), and what else blurs it added as powers`,
        source:
          'MER equals carrier to noise in the symbol rate for an ideal receiver in white noise: from memory, common practice. Symbol rates: ITU-T J.83 Annex B.',
      });
    }
  }
}

/** All carriers at the output together. */
export const howTogether = ({ count, totalDbmv, from }: Together, unit: LevelUnitName): How =>
  plainHow({
    title: 'All carriers together',
    value: level(totalDbmv, unit),
    words: `The power of the ${count} channels of the ${from === 'sweep' ? 'newest output sweep' : 'line-up, each where the design line asks for it, analog carriers at their peaks'}: what the output stage has to carry. Distortion follows it.`,
    formula: '10 log \u03A3 10^(level / 10)',
    source: 'Hranac, \u201CBroadband: Total Power\u201D: n equal levels are 10 log n more than one.',
  });
