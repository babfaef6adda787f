import { Station } from '../../../core/files/station.ts';

/** The station of the sketch: invented, forward output under-equalized after a cable was replaced. */
export const station: Station = Station.parse({
  format: 'tiltwright-station/1',
  id: 'QM-4-07',
  name: 'Quillmere QM-4 07 Mill Lane',
  ports: [
    {
      name: 'forward output',
      direction: 'forward',
      testPointLossDb: 20,
      design: {
        lowMhz: 54,
        lowDbmv: 36,
        highMhz: 870,
        highDbmv: 46,
        shape: 'linear',
        toleranceDb: 1,
        flatnessDb: 2.5,
      },
      through: ['input pad', 'input equalizer', 'interstage pad', 'interstage equalizer'],
    },
    { name: 'forward input', direction: 'forward', testPointLossDb: 20 },
  ],
  positions: [
    { name: 'input pad', kind: 'pad', installed: 6, values: Array.from({ length: 21 }, (_, i) => i) },
    {
      name: 'input equalizer',
      kind: 'equalizer',
      topMhz: 870,
      insertionLossDb: 1,
      installed: 8,
      values: Array.from({ length: 13 }, (_, i) => i * 2),
    },
    { name: 'interstage pad', kind: 'pad', installed: 0, values: Array.from({ length: 21 }, (_, i) => i) },
    {
      name: 'interstage equalizer',
      kind: 'cable-simulator',
      topMhz: 870,
      insertionLossDb: 1,
      installed: 0,
      values: Array.from({ length: 13 }, (_, i) => i),
    },
  ],
  stageInput: {
    port: 'forward input',
    through: ['input pad', 'input equalizer'],
    atMhz: 870,
    minDbmv: 8,
    maxDbmv: 14,
  },
});

/** 137 channels, 2 dB low at the top and a little ripple. */
export const rows = Array.from({ length: 137 }, (_, i) => {
  const frequencyMhz = 54 + 6 * i;
  const place = (frequencyMhz - 54) / 816;
  const levelDbmv = 36 + 10 * place - 2.05 * place ** 0.8 + 0.35 * Math.sin(frequencyMhz / 47);
  return { frequencyMhz, levelDbmv };
});

/** The same channels at the input, falling as cable makes them fall. */
export const inputRows = rows.map(({ frequencyMhz }) => ({
  frequencyMhz,
  levelDbmv: 36 - 16 * Math.sqrt(frequencyMhz / 870),
}));
