import { PRACTICE, type Topic } from '../term.ts';

export const gainControl: Topic = {
  name: 'Gain control and season',
  terms: [
    {
      id: 'gain-control',
      name: 'Gain control',
      also: ['automatic gain control', 'agc', 'alc', 'automatic'],
      words:
        'A circuit that turns the gain up in the heat and down in the cold, so that the output stays where it was set. It listens to a pilot and can only reach as far as its range.',
      formula: 'control = what the cable asks for, held within its range',
      source: 'How a station file is read.',
      see: ['pilot', 'reserve', 'range', 'thermal-control'],
    },
    {
      id: 'pilot',
      name: 'Pilot',
      also: ['pilot carrier', 'reference carrier'],
      words:
        'The carrier that the gain control listens to and keeps at one level. It must be there all day and be as steady as its neighbours, because everything follows it.',
      formula: 'level(f) \u2212 target(f) \u2212 median of the same of its neighbours',
      source: PRACTICE,
      see: ['gain-control', 'level'],
    },
    {
      id: 'reserve',
      name: 'Reserve',
      also: ['headroom', 'back-off'],
      words:
        'How far below its greatest gain the control is set, so that it can still turn up on the hottest day. Without it the level falls in summer and nobody sees it in spring.',
      formula: '3.5 dB at 750 MHz, 4.0 at 870, 4.5 at 1000; straight lines between and beyond',
      source: PRACTICE,
      see: ['gain-control', 'ambient-compensation', 'range'],
    },
    {
      id: 'thermal-control',
      name: 'Thermal control',
      also: ['thermal', 'temperature compensation', 'open loop'],
      words:
        'A gain control that looks at a thermometer in the housing and at no pilot. It follows the part of the cable\u2019s change that it was built for and never learns whether that was right.',
      formula: 'control = tracking \u00B7 what the cable asks for, held within its range',
      source: 'How a station file is read; the tracking stands in the file.',
      see: ['gain-control', 'ambient-compensation'],
    },
    {
      id: 'ambient-compensation',
      name: 'Ambient compensation',
      also: ['temperature correction', 'day\u2019s compensation', 'ambient'],
      words:
        'What the day\u2019s temperature adds to the level that is set. The cable in front is warmer or colder today than in the middle of the year, so the control stands higher or lower than it will then.',
      formula:
        'above 100 \u00B0F +2 dB, above 80 +1, from 40 none, from 20 \u22121, below \u22122; or loss \u00B7 change a degree \u00B7 (T \u2212 60 \u00B0F)',
      source: PRACTICE,
      see: ['reserve', 'span'],
    },
    {
      id: 'range',
      name: 'Range of the control',
      also: ['range test', 'up', 'down', 'end stops'],
      words:
        'How far the output rises and falls between the two ends of the control. The test turns it to both ends and back, and tells whether it will reach through the year.',
      formula: 'range = up + down',
      source: `Limits: ${PRACTICE.toLowerCase()} Undecided: guard bands after JCGM 106:2012, 8.3, from memory.`,
      see: ['gain-control', 'reserve', 'guard-band'],
    },
    {
      id: 'season',
      name: 'Season',
      also: ['year', 'coldest day', 'hottest day', 'weather'],
      words:
        'What the cable will ask of the gain control from the coldest to the hottest day, and where the control runs out. It is a calculation from two temperatures and no forecast.',
      formula: 'demand(T) = loss \u00B7 \u221A(f / top) \u00B7 change a degree \u00B7 (T \u2212 T set)',
      source: 'How a station file is read; the cable\u2019s change: see Span.',
      see: ['span', 'gain-control', 'reserve'],
    },
    {
      id: 'span',
      name: 'Span',
      also: ['cable', 'loss', 'section', 'hardline'],
      words:
        'The cable between two stations. It loses about as the square root of the frequency, and about 0.11 % of that more for each degree Fahrenheit.',
      formula: 'L(f, T) = L(top) \u00B7 \u221A(f / top) \u00B7 (1 + 0.0011 \u00B7 (\u00B0F \u2212 68))',
      source:
        '\u201CCoaxial Cable Attenuation Changes versus Temperature\u201D, a tech tip without a publisher; loss tables as each cable names them.',
      see: ['tilt', 'equalizer', 'season'],
    },
  ],
};
