import { OURS, PRACTICE, type Topic } from '../term.ts';

export const parts: Topic = {
  name: 'Parts and proposals',
  terms: [
    {
      id: 'pad',
      name: 'Pad',
      also: ['attenuator', 'plug-in', 'jumper'],
      words:
        'A plug-in that takes the same number of dB from every channel. It sets the level and leaves the tilt as it is.',
      formula: 'loss(f) = value',
      source: 'How a station file is read; the value is the one printed on the part.',
      see: ['equalizer', 'level', 'proposal'],
    },
    {
      id: 'equalizer',
      name: 'Equalizer',
      also: ['eq', 'plug-in'],
      words:
        'A plug-in that takes much away at the bottom of the band and only its insertion loss at the top. It undoes the tilt of the cable in front of it.',
      formula: 'loss(f) = insertion loss + value \u00B7 (1 \u2212 \u221A(f / top))',
      source:
        'How a station file is read; the square root is the law of the cable\u2019s skin effect. A measured curve goes before it.',
      see: ['cable-simulator', 'tilt', 'pad'],
    },
    {
      id: 'cable-simulator',
      name: 'Cable simulator',
      also: ['cable equivalent', 'reverse equalizer', 'plug-in'],
      words:
        'A plug-in that takes away what a length of cable would, most at the top of the band. It is used where the span is too short for the amplifier.',
      formula: 'loss(f) = insertion loss + value \u00B7 \u221A(f / top)',
      source: 'How a station file is read. A measured curve goes before it.',
      see: ['equalizer', 'span'],
    },
    {
      id: 'insertion-loss',
      name: 'Insertion loss',
      also: ['through loss'],
      words:
        'What a part takes away even where it is meant to take nothing. An equalizer has about one dB of it at the top of its band, so that a change of value costs some level too.',
      formula: 'loss at the frequency where the part should be transparent',
      source: 'The station file; 1 dB is common practice, no published source.',
      see: ['equalizer', 'pad'],
    },
    {
      id: 'trim',
      name: 'Trim',
      also: ['gain trim', 'slope trim', 'control', 'variable'],
      words:
        'A control that is turned instead of plugged, for what lies between two values of a part. It is proposed only once no part is left to change.',
      formula: 'after(f) = before(f) + turn \u00B7 effect(f)',
      source: `Its range stands in the station\u2019s notes. What a turn does along the band: ${PRACTICE.toLowerCase()}`,
      see: ['pad', 'proposal'],
    },
    {
      id: 'proposal',
      name: 'Proposal',
      also: ['recommendation', 'what to change', 'suggestion'],
      words:
        'The plug-ins to change so that the worst channel comes nearest to its design, chosen from what the kit or the truck really holds. Of those that are good enough it names the one with the fewest changes, and no combination is passed over.',
      formula:
        'least greatest |before(f) + \u03A3 loss(in now, f) \u2212 \u03A3 loss(to fit, f) \u2212 target(f)|',
      source: `${OURS} The search is exact and is held against an independent solver in the tests.`,
      see: ['worst-channel', 'held-against', 'stage-input', 'truck'],
    },
    {
      id: 'stage-input',
      name: 'Stage input',
      also: ['input level', 'input range'],
      words:
        'The level that reaches the amplifying stage itself, behind the input pad and equalizer. Too low it adds noise, too high it distorts, so a proposal must leave it inside its limits.',
      formula: 'input(f) \u2212 \u03A3 loss(to fit, f), at the frequency of the limit',
      source: 'The limits: the station file.',
      see: ['cnr', 'ctb', 'proposal'],
    },
    {
      id: 'held-against',
      name: 'Held against the prediction',
      also: ['as predicted', 'prediction', 'proof'],
      words:
        'The sweep after the change beside what the new parts were to give. Where the two disagree by more than the meter and the parts explain, a part is not what its label says, or is not seated.',
      formula: 'greatest |read(f) \u2212 predicted(f)|',
      source: 'JCGM 100:2008, 5.1.2, from memory, for what both are uncertain by.',
      see: ['proposal', 'as-left', 'uncertainty'],
    },
    {
      id: 'truck',
      name: 'Truck',
      also: ['stock', 'kit', 'parts'],
      words:
        'How many of which parts are on board; only these are proposed once it is counted. Fitted parts leave it and pulled ones go back into it by themselves.',
      formula: 'there = counted \u2212 fitted + pulled',
      source: OURS,
      see: ['proposal', 'pad'],
    },
  ],
};
