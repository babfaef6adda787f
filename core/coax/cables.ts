/**
 * On whose word a table of losses stands. None is a manufacturer's figure, none is a standard's: ANSI/SCTE 15 (hardline)
 * and ANSI/SCTE 74 (drop) are the documents to buy and enter.
 * - public spot table: four frequencies read in public code, a handbook-style table without a publisher
 * - public repository table: one generic row in a public repository of antenna notes
 * - from memory: trade-typical, recalled, unverified; equals the spot table wherever both have a point
 * - computed: skin effect and dielectric, with diameters from memory
 */
export type CableBasis = 'public spot table' | 'public repository table' | 'from memory' | 'computed';

/** dB per 100 ft at 20 degrees C (68 degrees F), 75 ohm; both arrays equally long, frequencies rising. */
export type LossTable = Readonly<{
  basis: CableBasis;
  frequenciesMhz: readonly number[];
  per100FtDb: readonly number[];
}>;

/**
 * How the loss between and beside the points is found. `two-term`: k1 sqrt f + k2 f, f in MHz, dB per 100 ft, unweighted
 * least squares on one table, with its largest error at a point. `interpolated`: between the points of one table only:
 * a centre of copper-clad steel loses 20 to 30 % more at 5 MHz than a fit to the rest says.
 */
export type LossModel =
  | Readonly<{ kind: 'two-term'; k1: number; k2: number; fittedTo: CableBasis; maxErrorDb: number }>
  | Readonly<{ kind: 'interpolated'; from: CableBasis }>;

export type Cable = Readonly<{
  name: string;
  construction: 'hardline, foam' | 'hardline, thin wall' | 'hardline, air disc' | 'drop, copper-clad steel';
  model: LossModel;
  tables: readonly LossTable[];
}>;

const SPOT_MHZ = [55, 750, 865, 1000];
const COMPUTED_MHZ = [5, 42, 54, 55, 85, 108, 204, 258, 300, 450, 550, 600, 750, 865, 1000, 1002, 1218];

/** Named by size and construction, never by a maker; thin to thick, hardline before drop. */
export const CABLES: readonly Cable[] = [
  {
    name: '.412',
    construction: 'hardline, foam',
    model: { kind: 'two-term', k1: 0.0849, k2: 0.000366, fittedTo: 'computed', maxErrorDb: 0.0005 },
    tables: [
      {
        basis: 'computed',
        frequenciesMhz: COMPUTED_MHZ,
        per100FtDb: [
          0.192, 0.566, 0.644, 0.65, 0.814, 0.922, 1.287, 1.458, 1.58, 1.966, 2.193, 2.299, 2.6, 2.814, 3.051,
          3.055, 3.409,
        ],
      },
    ],
  },
  {
    name: '.500',
    construction: 'hardline, foam',
    model: { kind: 'two-term', k1: 0.07103, k2: 0.000282, fittedTo: 'from memory', maxErrorDb: 0.0077 },
    tables: [
      { basis: 'public spot table', frequenciesMhz: SPOT_MHZ, per100FtDb: [0.54, 2.16, 2.34, 2.52] },
      {
        basis: 'from memory',
        frequenciesMhz: [5, 55, 211, 250, 300, 350, 400, 450, 500, 550, 600, 750, 865, 1000],
        per100FtDb: [0.16, 0.54, 1.09, 1.2, 1.31, 1.43, 1.53, 1.63, 1.73, 1.82, 1.91, 2.16, 2.34, 2.52],
      },
      {
        basis: 'computed',
        frequenciesMhz: COMPUTED_MHZ,
        per100FtDb: [
          0.157, 0.465, 0.529, 0.534, 0.67, 0.76, 1.065, 1.208, 1.311, 1.636, 1.828, 1.919, 2.174, 2.357,
          2.559, 2.562, 2.867,
        ],
      },
    ],
  },
  {
    name: '.540 thin-wall',
    construction: 'hardline, thin wall',
    model: { kind: 'two-term', k1: 0.06292, k2: 0.000175, fittedTo: 'public spot table', maxErrorDb: 0.0051 },
    tables: [{ basis: 'public spot table', frequenciesMhz: SPOT_MHZ, per100FtDb: [0.48, 1.85, 2, 2.17] }],
  },
  {
    name: '.625',
    construction: 'hardline, foam',
    model: { kind: 'two-term', k1: 0.05899, k2: 0.00022, fittedTo: 'from memory', maxErrorDb: 0.0079 },
    tables: [
      { basis: 'public spot table', frequenciesMhz: SPOT_MHZ, per100FtDb: [0.45, 1.78, 1.93, 2.08] },
      {
        basis: 'from memory',
        frequenciesMhz: [5, 55, 300, 400, 450, 500, 550, 600, 750, 865, 1000],
        per100FtDb: [0.13, 0.45, 1.08, 1.27, 1.35, 1.43, 1.51, 1.58, 1.78, 1.93, 2.08],
      },
      {
        basis: 'computed',
        frequenciesMhz: COMPUTED_MHZ,
        per100FtDb: [
          0.125, 0.373, 0.426, 0.43, 0.54, 0.614, 0.864, 0.982, 1.067, 1.337, 1.497, 1.573, 1.788, 1.942,
          2.113, 2.116, 2.374,
        ],
      },
    ],
  },
  {
    name: '.750',
    construction: 'hardline, foam',
    model: { kind: 'two-term', k1: 0.04823, k2: 0.000216, fittedTo: 'from memory', maxErrorDb: 0.0045 },
    tables: [
      {
        basis: 'from memory',
        frequenciesMhz: [5, 55, 450, 750, 865, 1000],
        per100FtDb: [0.11, 0.37, 1.12, 1.48, 1.61, 1.74],
      },
      {
        basis: 'computed',
        frequenciesMhz: COMPUTED_MHZ,
        per100FtDb: [
          0.103, 0.31, 0.353, 0.357, 0.45, 0.511, 0.723, 0.824, 0.896, 1.128, 1.267, 1.332, 1.519, 1.653,
          1.803, 1.805, 2.031,
        ],
      },
    ],
  },
  {
    name: '.860 thin-wall',
    construction: 'hardline, thin wall',
    model: { kind: 'two-term', k1: 0.04263, k2: 0.000092, fittedTo: 'public spot table', maxErrorDb: 0.0037 },
    tables: [{ basis: 'public spot table', frequenciesMhz: SPOT_MHZ, per100FtDb: [0.32, 1.24, 1.33, 1.44] }],
  },
  {
    name: '.875',
    construction: 'hardline, foam',
    model: { kind: 'two-term', k1: 0.04081, k2: 0.000238, fittedTo: 'from memory', maxErrorDb: 0.006 },
    tables: [
      { basis: 'public spot table', frequenciesMhz: SPOT_MHZ, per100FtDb: [0.32, 1.29, 1.41, 1.53] },
      {
        basis: 'from memory',
        frequenciesMhz: [5, 55, 300, 450, 750, 865, 1000],
        per100FtDb: [0.09, 0.32, 0.78, 0.97, 1.29, 1.41, 1.53],
      },
      {
        basis: 'computed',
        frequenciesMhz: COMPUTED_MHZ,
        per100FtDb: [
          0.089, 0.268, 0.307, 0.31, 0.391, 0.445, 0.632, 0.721, 0.786, 0.993, 1.117, 1.176, 1.344, 1.465,
          1.601, 1.603, 1.809,
        ],
      },
    ],
  },
  {
    name: '1.000',
    construction: 'hardline, foam',
    model: { kind: 'two-term', k1: 0.03445, k2: 0.000366, fittedTo: 'computed', maxErrorDb: 0.0005 },
    tables: [
      {
        basis: 'computed',
        frequenciesMhz: COMPUTED_MHZ,
        per100FtDb: [
          0.079, 0.239, 0.273, 0.276, 0.349, 0.397, 0.567, 0.648, 0.706, 0.895, 1.009, 1.063, 1.218, 1.33,
          1.455, 1.457, 1.648,
        ],
      },
    ],
  },
  {
    name: '.500 air-disc',
    construction: 'hardline, air disc',
    model: { kind: 'two-term', k1: 0.06358, k2: 0.000203, fittedTo: 'public spot table', maxErrorDb: 0.0137 },
    tables: [{ basis: 'public spot table', frequenciesMhz: SPOT_MHZ, per100FtDb: [0.49, 1.88, 2.05, 2.22] }],
  },
  {
    name: '.750 air-disc',
    construction: 'hardline, air disc',
    model: {
      kind: 'two-term',
      k1: 0.04755,
      k2: -0.000004,
      fittedTo: 'public spot table',
      maxErrorDb: 0.0106,
    },
    tables: [{ basis: 'public spot table', frequenciesMhz: SPOT_MHZ, per100FtDb: [0.36, 1.29, 1.39, 1.51] }],
  },
  {
    name: 'RG-59',
    construction: 'drop, copper-clad steel',
    model: { kind: 'interpolated', from: 'from memory' },
    tables: [
      {
        basis: 'from memory',
        frequenciesMhz: [5, 55, 83, 187, 211, 250, 300, 350, 400, 450, 500, 550, 600, 750, 865, 1000],
        per100FtDb: [0.86, 2.05, 2.45, 3.6, 3.8, 4.1, 4.45, 4.8, 5.1, 5.4, 5.7, 5.95, 6.2, 6.97, 7.52, 8.12],
      },
    ],
  },
  {
    name: 'RG-6',
    construction: 'drop, copper-clad steel',
    model: { kind: 'interpolated', from: 'from memory' },
    tables: [
      { basis: 'public spot table', frequenciesMhz: [750, 865, 1000], per100FtDb: [5.65, 6.1, 6.55] },
      { basis: 'public repository table', frequenciesMhz: [270, 1000], per100FtDb: [3.24, 6.54] },
      {
        basis: 'from memory',
        frequenciesMhz: [5, 55, 83, 187, 211, 250, 300, 350, 400, 450, 500, 550, 600, 750, 865, 1000],
        per100FtDb: [
          0.58, 1.6, 1.95, 2.85, 3.05, 3.3, 3.55, 3.85, 4.15, 4.4, 4.66, 4.9, 5.1, 5.65, 6.1, 6.55,
        ],
      },
    ],
  },
  {
    name: 'RG-11',
    construction: 'drop, copper-clad steel',
    model: { kind: 'interpolated', from: 'from memory' },
    tables: [
      { basis: 'public spot table', frequenciesMhz: SPOT_MHZ, per100FtDb: [0.96, 3.65, 3.98, 4.35] },
      {
        basis: 'from memory',
        frequenciesMhz: [5, 55, 83, 187, 211, 250, 300, 350, 400, 450, 500, 550, 600, 750, 865, 1000],
        per100FtDb: [
          0.38, 0.96, 1.18, 1.75, 1.9, 2.05, 2.25, 2.42, 2.6, 2.75, 2.9, 3.04, 3.18, 3.65, 3.98, 4.35,
        ],
      },
    ],
  },
];
