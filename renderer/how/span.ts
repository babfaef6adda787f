import { CABLES, type CableBasis } from '../../core/coax/cables.ts';
import { PLAUSIBLE_DB } from '../../core/coax/span-check.ts';
import { feetFromMetres } from '../../core/units.ts';
import { counted, lengthWords, mhz, oneDecimal, plugIn, signedDb, sizeDb, temperature } from '../format.ts';
import type { SpanView } from '../state/span-view.ts';
import { type How, PRACTICE, plainHow } from './how.ts';

export type SpanUnits = Readonly<{ length: 'm' | 'ft'; temperature: 'C' | 'F' }>;

const CATV = 'cabl.com \u201CCATV Formulas\u201D';

/** On whose word the loss of a cable is. None is a manufacturer's. */
export const basisWords = (basis: CableBasis): string => {
  switch (basis) {
    case 'public spot table':
      return 'Loss table: four frequencies of a public table without a publisher.';
    case 'public repository table':
      return 'Loss table: one row of a public repository.';
    case 'from memory':
      return 'Loss table: from memory, unverified.';
    case 'computed':
      return 'Loss table: computed from diameters that are from memory.';
  }
};

/** Where the losses of this cable are from, in a sentence; empty where nobody knows the cable. */
export const basisOf = (name: string): string => {
  const model = CABLES.find((cable) => cable.name === name)?.model;
  return model === undefined ? '' : basisWords(model.kind === 'two-term' ? model.fittedTo : model.from);
};

/** The loss at the top of the band. */
export function howLoss({ cable, figures, fileLossDb }: SpanView, unit: SpanUnits): How {
  const { per100Ft, lossHighDb, lengthM, highMhz } = figures;
  const { model } = cable;
  const per = `${per100Ft.per100FtDb.toFixed(3)} dB in 100 ft`;
  return plainHow({
    title: 'Loss of the span at 20 \u00B0C',
    value: `${sizeDb(lossHighDb)} at ${mhz(highMhz)}`,
    words: `${lengthWords(lengthM, unit.length)} of ${cable.name}, ${cable.construction}. ${
      model.kind === 'two-term'
        ? `Two terms were fitted to its table, to within ${model.maxErrorDb.toFixed(3)} dB of each point${per100Ft.beyondTable ? '; this frequency lies beyond the table' : ''}.`
        : 'Between the points of its table a straight line in \u221Af is taken; beyond them nothing is.'
    }`,
    formula: `${
      model.kind === 'two-term'
        ? `${model.k1} \u00B7 \u221A${plugIn(highMhz)} + ${model.k2} \u00B7 ${plugIn(highMhz)}`
        : 'table'
    } = ${per}; \u00D7 ${Math.round(feetFromMetres(lengthM))} ft / 100`,
    judged: fileLossDb === null ? null : `The station file says ${sizeDb(fileLossDb)}.`,
    source: `${basisWords(per100Ft.basis)} No manufacturer\u2019s figure, no standard\u2019s: ANSI/SCTE 15 (hardline) and ANSI/SCTE 74 (drop) are the documents to enter.`,
  });
}

export const howTilt = ({ figures }: SpanView): How =>
  plainHow({
    title: 'Tilt of the span at 20 \u00B0C',
    value: sizeDb(figures.tiltDb),
    words: `It loses so much more at ${mhz(figures.highMhz)} than at ${mhz(figures.lowMhz)}.`,
    formula: `tilt = L(high) \u00B7 (1 \u2212 L(low) / L(high)) = ${oneDecimal(figures.lossHighDb)} \u00B7 (1 \u2212 ${figures.ratioLoss.toFixed(3)})`,
    source: `${CATV}; its example, 20 dB of .750 from 54 to 450 MHz, gives 13.4 dB.`,
  });

/** Loss on a day of another temperature. */
export function howDay({ figures }: SpanView, day: 'cold' | 'now' | 'hot', unit: SpanUnits): How {
  const at = figures.days.find((one) => one.day === day);
  const then = at === undefined ? '' : temperature(at.ambientC, unit.temperature);
  return plainHow({
    title: `The span at ${then}`,
    value: at === undefined ? '' : `${sizeDb(at.lossHighDb)}, tilt ${sizeDb(at.tiltDb)}`,
    words: `Every frequency changes by the same part of its loss, so the tilt changes with the level. Temperatures are the cable\u2019s: in the sun it is warmer than the air.`,
    formula: `L \u00B7 (1 + ${figures.perDegreeF} \u00B7 (\u00B0F \u2212 68))`,
    source:
      '0.0011: tech tip \u201CCoaxial Cable Attenuation Changes versus Temperature\u201D, publisher not shown; also what copper gives (from memory). 0.001: Transmit Magazine, \u201CAutomatic Gain Control Part 01\u201D, 11 April 2016. The record temperatures are those of the season.',
  });
}

/** What the span needs to be level again. */
export function howEqualizer({ figures, fitted, slopeLackingDb, sentFrom }: SpanView): How {
  const { equalizer } = figures;
  const sent = sentFrom.name === null ? 'the station before' : sentFrom.name;
  const needs = 'valueDb' in equalizer ? equalizer : null;
  const formula =
    'valueDb' in equalizer
      ? `v \u00B7 (1 \u2212 \u221A(${plugIn(figures.lowMhz)} / ${plugIn(equalizer.topMhz)})) = ${sizeDb(equalizer.takeAwayDb)}`
      : equalizer.help;
  const parts = fitted.parts.map(({ position, valueDb, slopeDb }) => ({
    name: `${position} ${plugIn(valueDb)}`,
    text: signedDb(slopeDb),
  }));
  return plainHow({
    title: 'Equalizer for this span today',
    value: needs === null ? 'none' : sizeDb(needs.valueDb),
    words: `So that this station sends out the tilt that ${sent} sends in, its equalizers together have to give back the tilt of the span. What they lack, the amplifier itself has to have.${
      figures.undoesCableDb === null ? '' : ` It undoes ${sizeDb(figures.undoesCableDb)} of this cable.`
    }`,
    formula,
    items: [...parts, { name: 'fitted together', text: signedDb(fitted.slopeDb) }],
    judged: `The amplifier itself has to ${slopeLackingDb >= 0 ? 'rise' : 'fall'} by the other ${sizeDb(slopeLackingDb)}; whether it does, the sweep of its output tells on the station sheet.`,
    source: `Equalizer: contract of the station file. EQ = tilt / (1 \u2212 ratio): ${CATV}.`,
  });
}

/** What the sweeps say of the span. */
export function howCheck({ check, sentFrom, checkedAtC }: SpanView, unit: SpanUnits): How {
  const sent =
    sentFrom.from === 'sweep'
      ? `the newest sweep of ${sentFrom.name ?? ''}`
      : `the design of ${sentFrom.name ?? 'this station, taken for the one before'}`;
  return plainHow({
    title: 'Measured loss of the span',
    value: check === null ? '' : `${sizeDb(check.measuredHighDb)} at ${mhz(check.highMhz)}`,
    words: `What goes in is ${sent}; what comes out, the newest sweep of the input here. A line through ${check === null ? 0 : counted(check.points.length, 'channel', 'channels')}, measured loss on the loss computed for ${temperature(checkedAtC, unit.temperature)}, is read off at both ends.`,
    formula: 'loss = sent \u2212 received; measured = a + b \u00B7 computed',
    items:
      check === null
        ? []
        : [
            { name: `more than computed at ${mhz(check.highMhz)}`, text: signedDb(check.excessHighDb) },
            { name: `at ${mhz(check.lowMhz)}`, text: signedDb(check.excessLowDb) },
            { name: 'uneven, peak to peak', text: sizeDb(check.unevenDb) },
            { name: 'as if it were', text: lengthWords(check.asIfLengthM, unit.length) },
          ],
    judged: `Within ${sizeDb(PLAUSIBLE_DB)} at both ends it is plausible.`,
    source: `Loss = in \u2212 out: Hranac, \u201CLoss\u201D, quoting SCTE 270. What is plausible: ${PRACTICE.toLowerCase()}`,
  });
}
