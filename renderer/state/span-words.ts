import type { NoiseRow } from '../../core/noise/noise-report.ts';
import { counted, lengthWords, mhz, plugIn, sizeDb } from '../format.ts';
import { noiseNames } from '../how/noise.ts';
import type { NoiseView } from './noise-view.ts';
import type { SpanView } from './span-view.ts';

/** The finding of the span's check in a few words, and what would help. */
export function checkWords(view: SpanView, unit: 'm' | 'ft'): Readonly<{ headline: string; help: string }> {
  const { check, cable, figures } = view;
  if (check === null) return { headline: 'Not measured yet', help: view.unchecked };
  const offDb = sizeDb(check.excessHighDb);
  const more = check.excessHighDb > 0 ? 'more' : 'less';
  switch (check.finding) {
    case 'plausible':
      return check.isUneven
        ? {
            headline: `Uneven by ${sizeDb(check.unevenDb)}`,
            help: 'Length and cable agree. Look for a wet or loose connector or a splice: the station sheet shows where in the band.',
          }
        : {
            headline: 'Loses what it should',
            help: `Measured and computed agree to within ${sizeDb(Math.max(Math.abs(check.excessHighDb), Math.abs(check.excessLowDb)))} at both ends.`,
          };
    case 'longer':
    case 'shorter':
      return {
        headline: `${offDb} ${more} at ${mhz(check.highMhz)}`,
        help: `As ${lengthWords(check.asIfLengthM, unit)} of ${cable.name} would lose instead of ${lengthWords(figures.lengthM, unit)}. Look at the length, at the cable type, and at what was hung since.`,
      };
    case 'flat':
      return {
        headline: `${offDb} ${more}, all along the band`,
        help: 'No cable loses alike at every frequency. Look for a splitter or coupler in the span, at the test points, and at the level that is sent in.',
      };
    case 'slanted':
      return {
        headline: 'Does not lose like this cable',
        help: `${sizeDb(check.excessLowDb)} ${check.excessLowDb > 0 ? 'too much' : 'too little'} at ${mhz(check.lowMhz)}, ${sizeDb(check.excessHighDb)} ${check.excessHighDb > 0 ? 'too much' : 'too little'} at ${mhz(check.highMhz)}. Look at the cable type, at the connectors, and at the tilt that is sent in.`,
      };
  }
}

/** "22.0 dB at 870 MHz", at the temperature of the tables. */
export const lossWords = ({ figures }: SpanView): string =>
  `${sizeDb(figures.lossHighDb)} at ${mhz(figures.highMhz)}`;

/** "tilted by 17.0 dB" */
export const tiltWords = ({ figures }: SpanView): string => `tilted by ${sizeDb(figures.tiltDb)}`;

/** What the span needs and what is fitted, in a sentence. */
export function equalizerWords({ figures, fitted, slopeLackingDb }: SpanView): string {
  const { equalizer } = figures;
  const is = fitted.parts
    .map(({ kind, valueDb }) => `${kind === 'cable-simulator' ? '\u2212' : ''}${plugIn(valueDb)}`)
    .join(' + ');
  const has = fitted.parts.length === 0 ? 'none is fitted' : `${is} fitted`;
  if (!('valueDb' in equalizer)) return `No equalizer: the span tilts too little. ${has}.`;
  const near = Math.abs(slopeLackingDb) < 1.5;
  return near
    ? `${has}: as much slope as the span takes.`
    : `${has}: the amplifier itself has to ${slopeLackingDb > 0 ? 'rise' : 'fall'} by ${sizeDb(slopeLackingDb)} over the band.`;
}

/** The finding of the noise, in words. */
export function noiseHeadline({ report, withoutFigures }: NoiseView): string {
  const failing = report.rows.filter(({ verdict }) => verdict === 'fail');
  const [worst] = failing;
  if (worst !== undefined)
    return failing.length === 1
      ? `${noiseNames[worst.key]} lacks ${sizeDb(worst.inHandDb ?? 0)}`
      : `${counted(failing.length, 'figure', 'figures')} beyond the limit`;
  if (withoutFigures.length > 0) return 'The cascade can\u2019t be told yet';
  const { tightest } = report;
  if (tightest === null) return 'Nothing to hold a limit against';
  if (tightest.verdict === 'undecided')
    return `Undecided: ${shortName(tightest)} is within ${sizeDb(tightest.doubtDb)} of its limit`;
  return `${sizeDb(tightest.inHandDb ?? 0)} in hand, least of all in ${shortName(tightest)}`;
}

const SHORT = { cnr: 'noise', ctb: 'CTB', cso: 'CSO', xmod: 'XMOD', mer: 'MER' } as const;
const shortName = ({ key }: NoiseRow): string => SHORT[key];

/** Which stations the figures stand for. */
export function cascadeWords({ cascade, report }: NoiseView): string {
  const { members, alikeAhead, source } = cascade;
  const behind = source === null ? '' : ', behind the node';
  if (members.length === 1 && alikeAhead === 0) return `This station alone${behind}`;
  return `${counted(report.count, 'station', 'stations')} in cascade${behind}`;
}
