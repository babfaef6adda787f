import { z } from 'zod';
import type { Result } from '../result.ts';
import { readJsonFile } from './json-file.ts';

const mhz = z.number().positive().max(100_000);
const part = {
  /** dB, as its label says. */
  valueDb: z.number().min(0).max(200),
  /** How many are in the truck. */
  count: z.number().int().min(0).max(100_000),
  /** Half-width, dB: how far the part's loss may lie from its label. */
  toleranceDb: z.number().min(0).max(20).optional(),
};

/** One kind and value of plug-in. An equalizer and a cable simulator fit only positions with the same top frequency. */
export const TruckPart = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('pad'), ...part }),
  z.strictObject({ kind: z.literal('equalizer'), topMhz: mhz, ...part }),
  z.strictObject({ kind: z.literal('cable-simulator'), topMhz: mhz, ...part }),
]);
export type TruckPart = z.infer<typeof TruckPart>;

const titleOf = (one: TruckPart): string =>
  one.kind === 'pad'
    ? `pad ${one.valueDb} dB`
    : `${one.kind === 'equalizer' ? 'equalizer' : 'cable simulator'} ${one.valueDb} dB for ${one.topMhz} MHz`;

/** The stock: what is in the truck, 0 dB parts and jumpers included. Unknown keys are refused by name. */
export const Truck = z
  .strictObject({ format: z.literal('tiltwright-truck/1'), parts: z.array(TruckPart).max(2000) })
  .superRefine(({ parts }, issues) => {
    const seen = new Map<string, number>();
    parts.forEach((one, i) => {
      const title = titleOf(one);
      const before = seen.get(title);
      if (before !== undefined)
        issues.addIssue({
          code: 'custom',
          path: ['parts', i],
          message: `${title} is listed before, as parts.${before}; count them together`,
        });
      seen.set(title, i);
    });
  });
export type Truck = z.infer<typeof Truck>;

/**
 * A truck file's text to a checked stock.
 * @param text      JSON
 * @param fileName  named in a refusal
 * @returns  the stock, or a refusal that names the file and the key
 * @source   the truck format is this program's own
 */
export function readTruck(text: string, fileName: string): Result<Truck, 'not-json' | 'not-a-truck'> {
  return readJsonFile(
    Truck,
    { noun: 'truck file', format: 'tiltwright-truck/1', code: 'not-a-truck' },
    text,
    fileName,
  );
}
