import type { Topic } from '../term.ts';

const CATV = 'cabl.com \u201CCATV Formulas\u201D';

export const noise: Topic = {
  name: 'Noise and distortion',
  terms: [
    {
      id: 'cnr',
      name: 'CNR, carrier to noise',
      also: ['c/n', 'cnr', 'carrier-to-noise', 'snr'],
      words:
        'How far a carrier stands above the noise in its own bandwidth. Each amplifier adds its share, and most comes from the one with the lowest input.',
      formula: 'C/N = input \u2212 (kTB + noise figure); together \u221210 log \u03A3 10^(\u2212C/N / 10)',
      source: `${CATV}; R. Hranac, \u201CBroadband: Total Power, Part 2\u201D.`,
      see: ['noise-figure', 'mer', 'stage-input'],
    },
    {
      id: 'noise-figure',
      name: 'Noise figure',
      also: ['nf'],
      words:
        'How much more noise an amplifier makes than a perfect one would pass on. The data sheet names it for the first stage, so what lies in front of it counts in full.',
      formula: 'noise at the input = kTB + noise figure; \u221259 dBmV in 4 MHz at 290 K',
      source: `${CATV}; k of the SI, exact.`,
      see: ['cnr', 'stage-input'],
    },
    {
      id: 'mer',
      name: 'MER, modulation error ratio',
      also: ['mer', 'modulation error'],
      words:
        'How far the points of a digital signal stray from where they should lie, as a ratio of powers. Here it is estimated from noise alone: a ripple or an echo makes the real one worse.',
      formula: 'C/N + offset \u2212 10 log (symbol rate / bandwidth)',
      source:
        'That MER equals carrier to noise in white noise: from memory; symbol rates: ITU-T J.83 Annex B.',
      see: ['cnr', 'signal-kind'],
    },
    {
      id: 'ctb',
      name: 'CTB, composite triple beat',
      also: ['ctb', 'triple beat', 'third order', 'distortion'],
      words:
        'All products of three carriers that fall on one channel, seen against its carrier. Two dB more output are four dB worse, so it limits how high an amplifier may be driven.',
      formula: 'together 20 log \u03A3 10^(x / 20); 2 dB a dB of level',
      source: CATV,
      see: ['cso', 'total-power'],
    },
    {
      id: 'cso',
      name: 'CSO, composite second order',
      also: ['cso', 'second order', 'distortion'],
      words:
        'All products of two carriers that fall near one channel. It grows by one dB a dB of level and adds more slowly along a cascade than CTB does.',
      formula: 'together 10 log \u03A3 10^(x / 10), by others 15 log; 1 dB a dB of level',
      source: `10 log: ${CATV}; 15 log and 1 dB a dB: from memory.`,
      see: ['ctb', 'cascade'],
    },
    {
      id: 'cross-modulation',
      name: 'Cross modulation',
      also: ['xmod', 'crossmodulation'],
      words:
        'The picture of one analog channel that shows on another. It comes from the same curvature as CTB and adds like it.',
      formula: 'together 20 log \u03A3 10^(x / 20)',
      source: CATV,
      see: ['ctb'],
    },
    {
      id: 'cascade',
      name: 'Cascade',
      also: ['fed by', 'chain', 'stations ahead'],
      words:
        'The stations between the node and this one, each feeding the next. Noise and distortion of all of them arrive at the last.',
      formula: 'n alike: C/N \u2212 10 log n; CTB + 20 log n',
      source: CATV,
      see: ['cnr', 'ctb'],
    },
  ],
};
