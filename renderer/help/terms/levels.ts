import { OURS, PRACTICE, type Topic } from '../term.ts';

export const levels: Topic = {
  name: 'Levels and units',
  terms: [
    {
      id: 'level',
      name: 'Level',
      also: ['signal level', 'carrier level', 'amplitude'],
      words:
        'How strong one channel is at a port, as a ratio to one millivolt across 75 ohm. An analog channel is read at the peak of its carrier, a digital one as its average power.',
      formula: 'L = 20 log (U / 1 mV)',
      source: 'Definition of the decibel; 75 ohm is the impedance of the plant.',
      see: ['dbmv', 'test-point', 'signal-kind'],
    },
    {
      id: 'decibel',
      name: 'Decibel, dB',
      also: ['db', 'ratio', 'gain', 'loss'],
      words:
        'A ratio of two powers written so that gains and losses add instead of multiply. Three more dB are about twice the power, ten are ten times.',
      formula: 'a = 10 log (P1 / P2) = 20 log (U1 / U2)',
      source: 'ISO 80000-3 and IEC 60027-3: from memory.',
      see: ['level', 'dbmv'],
    },
    {
      id: 'dbmv',
      name: 'dBmV',
      also: ['decibel millivolt', 'unit'],
      words:
        'Decibels above one millivolt across 75 ohm; 0 dBmV is one millivolt. It is the unit in which every level is kept here.',
      formula: 'L = 20 log (U / 1 mV); U = 10^(L / 20) mV',
      source: 'Definition; R. Hranac, \u201CdBmV: Voltage or Power, Part 2\u201D.',
      see: ['dbuv', 'dbm', 'level'],
    },
    {
      id: 'dbuv',
      name: 'dB\u00B5V',
      also: ['dbuv', 'decibel microvolt', 'unit'],
      words:
        'Decibels above one microvolt, usual in Europe. It is always 60 more than the same level in dBmV, because a millivolt is a thousand microvolts.',
      formula: 'dB\u00B5V = dBmV + 60',
      source: 'Definition: 20 log 1000 = 60.',
      see: ['dbmv', 'dbm'],
    },
    {
      id: 'dbm',
      name: 'dBm, 75 ohm',
      also: ['decibel milliwatt', 'milliwatt', 'unit'],
      words:
        'Decibels above one milliwatt, a power and not a voltage. In 75 ohm it is 48.75 less than the same level in dBmV; in 50 ohm it would be 46.99 less.',
      formula: 'dBm = dBmV \u2212 48.75',
      source: 'Definition; R. Hranac, \u201CdBmV: Voltage or Power, Part 2\u201D.',
      see: ['dbmv', 'dbuv'],
    },
    {
      id: 'test-point',
      name: 'Test point',
      also: ['test port', 'test point loss', 'probe'],
      words:
        'A socket that gives a small, known part of the signal at a port, so that the meter does not load the line. Its loss is added to what the meter says, and a wrong loss moves every channel alike.',
      formula: 'level at the port = meter + test point loss',
      source: 'The station file names the loss; it is kept with each sweep.',
      see: ['level', 'uncertainty', 'correction'],
    },
    {
      id: 'signal-kind',
      name: 'Kind of signal',
      also: ['analog', 'qam', 'ofdm', 'cw', 'digital', 'offset'],
      words:
        'Analog, QAM, OFDM or a plain carrier; each is run at its own distance from the design line. A QAM channel 6 dB under the analog line is therefore right, and not 6 dB low.',
      formula: 'target(f) = design(f) + offset of the kind',
      source: `The line-up of the station, else the usual offsets. ${PRACTICE}`,
      see: ['line-up', 'design', 'level'],
    },
    {
      id: 'line-up',
      name: 'Line-up',
      also: ['channel plan', 'channels', 'raster'],
      words:
        'What each channel of a station carries: its frequency, name, kind and offset. It is learned from a sweep and put right by hand, and every sweep there is judged by it.',
      formula: 'target(f) = design(f) + offset(f)',
      source: `Channel plans: CTA-542 and the European raster, as the plan\u2019s name says. ${OURS}`,
      see: ['signal-kind', 'sweep'],
    },
    {
      id: 'total-power',
      name: 'Total power',
      also: ['all carriers together', 'loading', 'composite'],
      words:
        'The power of all channels together, which is what an amplifier has to carry. Twice as many channels at one level are 3 dB more.',
      formula: '10 log \u03A3 10^(level / 10)',
      source: 'R. Hranac, \u201CBroadband: Total Power\u201D.',
      see: ['level', 'ctb'],
    },
  ],
};
