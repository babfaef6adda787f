import type { Station } from '../../../core/files/station.ts';
import { type GainControl, type SeasonPlan, type Span, seasonPlan } from '../../../core/season/plan.ts';

const gainControl: GainControl = { mode: 'auto', upDb: 4, downDb: 6, topMhz: 870, setAtC: 20, pilotMhz: 711 };
const span: Span = { lossDb: 22, topMhz: 870, perDegreeC: 0.002, sky: 'aerial' };

/** An invented station: 54 to 870 MHz at 36 and 46 dBmV, tolerance 1 dB, behind 22 dB of aerial cable. */
export const harbourStation = (
  control: Partial<GainControl> = {},
  cable: Partial<Span> = {},
  highMhz = 870,
): Station => ({
  format: 'tiltwright-station/1',
  id: 'QM-4-9',
  name: 'Quillmere harbour 9',
  ports: [
    {
      name: 'return output',
      direction: 'return',
      testPointLossDb: 20,
      design: {
        lowMhz: 5,
        lowDbmv: 32,
        highMhz: 42,
        highDbmv: 34,
        shape: 'linear',
        toleranceDb: 1,
        flatnessDb: 2,
      },
      through: [],
    },
    {
      name: 'forward output',
      direction: 'forward',
      testPointLossDb: 20,
      design: {
        lowMhz: 54,
        lowDbmv: 36,
        highMhz,
        highDbmv: 46,
        shape: 'linear',
        toleranceDb: 1,
        flatnessDb: 2.5,
      },
      through: ['input pad', 'interstage pad'],
    },
  ],
  positions: [
    { name: 'input pad', kind: 'pad', installed: 6, values: [0, 2, 3, 4, 5, 6, 7, 8] },
    { name: 'interstage pad', kind: 'pad', installed: 3, values: [0, 3, 6] },
  ],
  stageInput: {
    port: 'forward output',
    through: ['input pad'],
    atMhz: 870,
    minDbmv: 8,
    maxDbmv: 14,
  },
  span: { ...span, ...cable },
  gainControl: { ...gainControl, ...control },
});

export function harbourPlan(...station: Parameters<typeof harbourStation>): SeasonPlan {
  const plan = seasonPlan(harbourStation(...station));
  if (!plan.ok) throw new Error(plan.help);
  return plan.value;
}
