import { OURS, PRACTICE, type Topic } from '../term.ts';

export const line: Topic = {
  name: 'A sweep and its design',
  terms: [
    {
      id: 'sweep',
      name: 'Sweep',
      also: ['reading', 'trace', 'measurement'],
      words:
        'The levels of all channels at one port, read one after another and kept as one record. It never changes; what was noted wrongly is put right by a correction beside it.',
      formula: 'one level for each frequency of the plan',
      source: OURS,
      see: ['as-found', 'as-left', 'correction'],
    },
    {
      id: 'design',
      name: 'Design line',
      also: ['design', 'target', 'output level'],
      words:
        'The levels that the plans of the network ask for at a port, from the low to the high end of the band. Straight in frequency or bent like a cable, as the station file says.',
      formula:
        'target(f) = low + (high \u2212 low) \u00B7 x(f); x = (s(f) \u2212 s(low)) / (s(high) \u2212 s(low)), s = f or \u221Af',
      source: 'The station file.',
      see: ['tilt', 'worst-channel', 'signal-kind'],
    },
    {
      id: 'tilt',
      name: 'Tilt',
      also: ['slope'],
      words:
        'How much higher the top of the band lies than the bottom. Cable takes more away at high frequencies, so an amplifier sends its signal out tilted upwards.',
      formula: 'tilt = L(high) \u2212 L(low), on the line of least squares',
      source: 'Ordinary least squares; how tilt is meant: common practice, no published source.',
      see: ['equalizer', 'cable-simulator', 'flatness'],
    },
    {
      id: 'flatness',
      name: 'Flatness',
      also: ['peak to valley', 'p/v', 'response'],
      words:
        'How far the channels stray from their own straight line, from the highest to the lowest. It tells of the shape alone: a level or tilt that is wrong leaves it as it is.',
      formula: 'greatest \u2212 least of (level \u2212 L(f))',
      source: 'Ordinary least squares; how flatness is meant: common practice, no published source.',
      see: ['tilt', 'ripple', 'suck-out', 'roll-off'],
    },
    {
      id: 'worst-channel',
      name: 'Worst channel',
      also: ['deviation', 'worst'],
      words:
        'The channel that lies farthest from what the design asks for there, above or below. A station is in order when even this one is within tolerance.',
      formula: 'greatest |level \u2212 target(f)|',
      source: PRACTICE,
      see: ['design', 'undecided', 'proposal'],
    },
    {
      id: 'as-found',
      name: 'As found',
      also: ['before'],
      words:
        'The first sweep of a visit, read before anything is touched. It is the only witness of how the station really stood.',
      formula: 'the state at arrival',
      source: PRACTICE,
      see: ['as-left', 'visit'],
    },
    {
      id: 'as-left',
      name: 'As left',
      also: ['after', 'proof'],
      words:
        'The sweep after the work, with everything closed as it will stay. The next visit and the drift are held against it.',
      formula: 'the state at departure',
      source: PRACTICE,
      see: ['as-found', 'held-against', 'drift'],
    },
    {
      id: 'visit',
      name: 'Visit',
      also: ['job', 'work order', 'operator'],
      words:
        'All that was read and changed at a station from one opening of its housing to its closing. It has one operator and one temperature, and its cautions are read once, when it begins.',
      formula: 'begin, sweeps, fittings, end with a note',
      source: OURS,
      see: ['as-found', 'as-left'],
    },
    {
      id: 'ripple',
      name: 'Ripple',
      also: ['standing wave', 'mismatch', 'echo', 'wet connector'],
      words:
        'A regular wave along the band, made by a signal that is sent back and forth between two poor matches. The closer its crests, the farther the two are apart.',
      formula: 'distance = v \u00B7 c / (2 \u00B7 period)',
      source: 'R. Hranac, \u201CHow Fast is RF?\u201D; the velocity factor v is 0.87 unless told.',
      see: ['suck-out', 'flatness'],
    },
    {
      id: 'suck-out',
      name: 'Suck-out, notch',
      also: ['notch', 'dip', 'suckout'],
      words:
        'A few neighbouring channels that are far too low, with good ones on both sides. No pad or equalizer mends it; something resonates, mostly a loose screw, a bad ground or a damaged part.',
      formula: 'level \u2212 line = \u2212depth \u00B7 bell((f \u2212 centre) / width)',
      source: `Least squares over place, depth and width. ${PRACTICE}`,
      see: ['ripple', 'roll-off'],
    },
    {
      id: 'roll-off',
      name: 'Roll-off',
      also: ['rolloff', 'band edge'],
      words:
        'Levels that fall away more and more towards one end of the band. An amplifier or a passive part that does not reach so far, or an old part that no longer does.',
      formula: 'depth = line of the rest \u2212 level, at the end of the band',
      source: `Least squares over beginning, depth and steepness. ${PRACTICE}`,
      see: ['suck-out', 'flatness'],
    },
    {
      id: 'step',
      name: 'Step',
      also: ['jump'],
      words:
        'Two parts of the band that each lie well but at different heights. Two combined sources whose levels were not made equal, or a kind of signal that the line-up does not name.',
      formula: 'line above \u2212 line below, one slope for both',
      source: `Least squares over place and height. ${PRACTICE}`,
      see: ['signal-kind', 'line-up'],
    },
  ],
};
