import { dayWords, localTime } from '../words/local-time.ts';
import { bareMhz, capital, level, mhz, plugIn } from '../words/numbers.ts';
import type { LabelDocument, Picture, Shape } from './document.ts';
import type { ReportFrame, ReportVisit } from './material.ts';
import { lastOf } from './port-view.ts';
import { portsOf } from './visit.ts';

const PT_PER_MM = 72 / 25.4;
/** Fits inside a lid, and three by six on a sheet. */
export const LABEL_MM = { width: 62, height: 40 } as const;
const CODE_MM = 21;
/** A QR code wants four modules of white around it (ISO/IEC 18004, 6.3.8). */
const QUIET_MODULES = 4;
/** As many positions as there is room for above the levels. */
const mostParts = (levelLineCount: number): number => (levelLineCount > 2 ? 4 : 6);

/** The modules of a QR code, dark ones true; made outside of core. */
export type CodeModules = readonly (readonly boolean[])[];

/**
 * What the label's code says: which visit, and the head of the chain of records (or, without one, the data's hash), so
 * that the record can be found and proved.
 * @source   this program's own
 */
export const identityText = (visit: ReportVisit, frame: ReportFrame): string =>
  `tiltwright:visit:${visit.visitId}?${frame.head === null ? `data=${frame.dataSha256}` : `head=${frame.head.hash}`}`;

const words = (text: string, xPt: number, yPt: number, sizePt: number, bold = false): Shape => ({
  shape: 'words',
  text,
  xPt,
  yPt,
  sizePt,
  bold,
  align: 'start',
  ink: 'ink',
});

const cut = (text: string, most: number): string =>
  text.length <= most ? text : `${text.slice(0, most - 1)}\u2026`;

/** Neighbours in a row are one box, so that no viewer draws seams between them. */
function codeBoxes(modules: CodeModules, xPt: number, yPt: number, sidePt: number): Shape {
  const sizePt = sidePt / (modules.length + 2 * QUIET_MODULES);
  const boxes: [number, number, number, number][] = [];
  modules.forEach((row, j) => {
    let from: number | null = null;
    for (let i = 0; i <= row.length; i++) {
      if (row[i] === true) from ??= i;
      else if (from !== null) {
        boxes.push([
          xPt + (from + QUIET_MODULES) * sizePt,
          yPt + (j + QUIET_MODULES) * sizePt,
          (i - from) * sizePt,
          sizePt,
        ]);
        from = null;
      }
    }
  });
  return { shape: 'boxes', boxes, ink: 'ink' };
}

/** Level at both ends of each port with a design, as left. */
function levelLines(visit: ReportVisit, frame: ReportFrame): readonly string[] {
  return portsOf(visit, frame).flatMap((view) => {
    const { standing } = lastOf(view);
    if (standing === null) return [];
    const { levelLow, levelHigh, fit } = standing;
    const unit = frame.units.levelUnit;
    return [
      `${capital(view.port.name)}: ${level(levelLow.valueDbmv, unit)} at ${bareMhz(fit.lowMhz)},`,
      `${level(levelHigh.valueDbmv, unit)} at ${mhz(fit.highMhz)}`,
    ];
  });
}

/**
 * A label for the inside of the lid: what is fitted, when and by whom, the levels at both ends, and a code with the
 * record's identity.
 * @param modules  of the code that says `identityText`
 * @param count    so many on a sheet
 * @source   this program's own; the quiet zone: ISO/IEC 18004, 6.3.8
 */
export function labelDocument(
  visit: ReportVisit,
  frame: ReportFrame,
  modules: CodeModules,
  count: number,
): LabelDocument {
  const widthPt = LABEL_MM.width * PT_PER_MM;
  const heightPt = LABEL_MM.height * PT_PER_MM;
  const codePt = CODE_MM * PT_PER_MM;
  const day = dayWords(localTime(visit.endedAt ?? visit.startedAt, visit.place).day);
  const positions = frame.station.positions;
  const levels = levelLines(visit, frame).slice(0, 4);
  const most = mostParts(levels.length);
  const parts = positions.slice(0, positions.length > most ? most - 1 : most).map(({ name, installed }) => ({
    name: capital(name),
    value: plugIn(visit.pluggedIn[name] ?? installed),
  }));
  const by = visit.operator === '' ? day : `${day}, ${visit.operator}`;
  const left = 7;
  const code = { x: widthPt - codePt - 3, y: heightPt - codePt - 3 };
  const shapes: Shape[] = [
    words(cut(frame.station.name, 34), left, 14, 10, true),
    words(cut(by, 48), left, 24, 6.5),
    {
      shape: 'line',
      points: [
        [left, 29],
        [widthPt - left, 29],
      ],
      ink: 'ink',
      widthPt: 1.2,
    },
  ];
  let y = 39;
  for (const { name, value } of parts) {
    shapes.push(words(cut(name, 22), left, y, 6.5), {
      shape: 'words',
      text: value,
      xPt: code.x - 6,
      yPt: y,
      sizePt: 7.5,
      bold: true,
      align: 'end',
      ink: 'ink',
    });
    y += 8.6;
  }
  if (parts.length < positions.length) {
    shapes.push(words(`and ${positions.length - parts.length} more, see the record`, left, y, 6));
    y += 8.6;
  }
  y = Math.max(y + 1, heightPt - 7 - 7.2 * Math.max(0, levels.length - 1));
  for (const line of levels) {
    shapes.push(words(line, left, y, 6));
    y += 7.2;
  }
  shapes.push(codeBoxes(modules, code.x, code.y, codePt));
  shapes.push(words(visit.visitId.slice(0, 8), code.x + 6.5, code.y - 1, 6.5));
  const picture: Picture = { widthPt, heightPt, shapes };
  return {
    kind: 'labels',
    title: `${frame.station.name}, label of ${day.replace('\u00A0', ' ')}`,
    subject: `Tiltwright label of visit ${visit.visitId}`,
    language: 'en',
    madeAt: frame.madeAt,
    picture,
    words: `${frame.station.name}, ${by}. ${parts.map(({ name, value }) => `${name} ${value}`).join(', ')}. ${levels.join(' ')} Code: ${identityText(visit, frame)}`,
    count,
  };
}
