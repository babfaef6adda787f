/** A station file as a person has it: two ports with a design, a stage input, and a pad, an equalizer each way. */
export const stationFile = (changed: Readonly<Record<string, unknown>> = {}): string =>
  JSON.stringify({
    format: 'tiltwright-station/1',
    id: 'slipway',
    name: 'Slipway 2',
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
        through: ['input pad', 'input equalizer'],
      },
      { name: 'forward input', direction: 'forward', testPointLossDb: 20, through: [] },
    ],
    positions: [
      { name: 'input pad', kind: 'pad', installed: 6, values: [0, 1, 2, 3] },
      {
        name: 'input equalizer',
        kind: 'equalizer',
        topMhz: 870,
        insertionLossDb: 1,
        installed: 8,
        values: [0, 2, 4, 6, 8],
      },
    ],
    ...changed,
  });
