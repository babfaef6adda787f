import type { AmplifierNotes, CascadeNotes, SpanNotes } from '../files/station-figures.ts';
import { quillmerePlans } from './quillmere-stations.ts';

/** What stands in the notes of a station of Quillmere: its span, its amplifier, and which station feeds it. */
export type FigureNotes = Readonly<{ span: SpanNotes; amplifier: AmplifierNotes; cascade: CascadeNotes }>;

/** Invented, as a data sheet of a two-stage station might have them. */
const amplifier = (gainDb: number): AmplifierNotes => ({
  ...{ noiseFigureDb: 9, gainDb, ratedAtDbmv: 46 },
  ...{ ctbDbc: -73, csoDbc: -70 },
});
/** The optical link of node QM-4. */
const node: CascadeNotes = { source: { cnrDb: 52, ctbDbc: -66, csoDbc: -63, merDb: 42 } };
const { ropewalk, millLane, customsQuay, saltpanRoad, lighthouseRise } = quillmerePlans;

/** By station id; the module on the bench has no span and stands in no cascade. Lengths give the loss that each file says. */
export const quillmereNotes: Readonly<Record<string, FigureNotes>> = {
  [ropewalk.id]: {
    span: { cable: '.750', lengthM: 416 },
    amplifier: amplifier(38),
    cascade: node,
  },
  [millLane.id]: {
    span: { cable: '.750', lengthM: 379 },
    amplifier: amplifier(37),
    cascade: { fedBy: ropewalk.id },
  },
  [customsQuay.id]: {
    span: { cable: '.625', lengthM: 379 },
    amplifier: amplifier(38),
    cascade: { fedBy: millLane.id },
  },
  [saltpanRoad.id]: {
    span: { cable: '.750', lengthM: 227 },
    amplifier: amplifier(39),
    cascade: { fedBy: customsQuay.id },
  },
  [lighthouseRise.id]: {
    span: { cable: '.625', lengthM: 442 },
    amplifier: amplifier(39),
    cascade: { fedBy: saltpanRoad.id },
  },
};
