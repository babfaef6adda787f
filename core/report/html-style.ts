import type { Paper } from './document.ts';
import { INKS } from './html-picture.ts';

/** The report's type as data: woff2 files in base64, by weight. The page loads nothing from anywhere. */
export type ReportFonts = readonly Readonly<{ weight: 400 | 700; unicodeRange: string; base64: string }>[];

const face = ({ weight, unicodeRange, base64 }: ReportFonts[number]): string =>
  `@font-face{font-family:"Report";font-weight:${weight};src:url(data:font/woff2;base64,${base64}) format("woff2");unicode-range:${unicodeRange}}`;

/**
 * The style of a report's page, for the screen and for paper.
 * @param paper  its printed size
 * @param fonts  embedded
 * @source   CSS Paged Media Level 3 (page counters); CSS 2.2 for the rest
 */
export function reportStyle(paper: Paper, fonts: ReportFonts, foot: string): string {
  const { ink, soft, hair, good, bad, paper: white } = INKS;
  // A string of CSS: its own marks escaped, a new line as \\A, and nothing that could end the style element.
  const quoted = foot.replace(/[\\"]/g, '\\$&').replace(/</g, ' ').replace(/\r?\n/g, '\\A ');
  return `${fonts.map(face).join('\n')}
@page{size:${paper === 'a4' ? 'A4' : 'letter'};margin:16mm 20mm 20mm;
@bottom-left{content:"${quoted}";white-space:pre;font:7pt "Report",sans-serif;color:${soft}}
@bottom-right{content:"page " counter(page) " of " counter(pages);font:7pt "Report",sans-serif;color:${soft}}}
*{box-sizing:border-box}
body{margin:0 auto;padding:12mm 8mm;max-width:186mm;background:${white};color:${ink};font:9.5pt/1.42 "Report","Atkinson Hyperlegible Next",system-ui,sans-serif}
@media print{body{padding:0;max-width:none}.foot{display:none}}
header{display:flex;justify-content:space-between;align-items:end;gap:8mm;border-bottom:2.25pt solid ${ink};padding-bottom:2mm;margin-bottom:5mm}
p{margin:1.4mm 0}.over,.lead{color:${soft};margin:0;font-size:9pt}
.aside{color:${soft};text-align:right;font-size:9pt}.aside p{margin:0}
h1{font-size:19pt;line-height:1.1;margin:0}
h2{font-size:12.5pt;line-height:1.2;margin:7mm 0 2mm;padding-top:2mm;border-top:1.2pt solid ${ink};break-after:avoid}
h3{font-size:10pt;margin:4mm 0 1mm;break-after:avoid}
.soft{color:${soft}}
.finding{margin:0 0 4mm;break-inside:avoid}.finding strong{display:block;font-size:19pt;line-height:1.15}
.word{font-weight:700}.good{color:${good}}.bad{color:${bad}}
.mark{width:1em;height:1em;vertical-align:-.14em;margin-right:.35em}
dl{display:grid;grid-template-columns:1fr 1fr;column-gap:8mm;margin:0 0 4mm;border-top:.5pt solid ${hair}}
dl div{display:flex;gap:3mm;padding:1mm 0;border-bottom:.5pt solid ${hair}}dt{color:${soft};flex:0 0 20mm}dd{margin:0}dd small{display:block;color:${soft};font-size:8pt}
figure{margin:3mm 0;break-inside:avoid}figure svg{width:100%;height:auto;display:block}
figcaption,caption{color:${soft};font-size:8pt;text-align:left;margin-top:1mm}
caption{padding:2mm 0 1mm}
table{width:100%;border-collapse:collapse;margin:1mm 0 3mm;font-variant-numeric:tabular-nums}
thead{display:table-header-group}tr{break-inside:avoid}
th{font-weight:700;font-size:8pt;border-bottom:1pt solid ${ink}}
th,td{padding:.9mm 1.6mm .9mm 0;text-align:left;vertical-align:top}
td{border-bottom:.5pt solid ${hair}}.end{text-align:right;padding-right:3mm}
.columns td{padding-top:.35mm;padding-bottom:.35mm;font-size:8.5pt}.fine td{font-size:7.5pt;overflow-wrap:anywhere}
ul{margin:1.4mm 0;padding-left:4.5mm}li{margin:.6mm 0}
.caution{border:1.2pt solid ${ink};padding:2mm 4mm;margin:5mm 0;break-inside:avoid;font-size:8.5pt}.caution p{margin:.6mm 0}
.sign{display:flex;gap:10mm;margin-top:14mm;break-inside:avoid}.sign div{flex:1;border-top:.8pt solid ${ink};padding-top:1mm;color:${soft};font-size:8.5pt}
.page{break-before:page}
.foot{color:${soft};font-size:8pt;border-top:.5pt solid ${hair};margin-top:8mm;padding-top:2mm;overflow-wrap:anywhere}
.labels{display:flex;flex-wrap:wrap;gap:4mm}.labels svg{outline:.3pt dashed ${hair};break-inside:avoid}
svg text{font-family:"Report","Atkinson Hyperlegible Next",system-ui,sans-serif;font-variant-numeric:tabular-nums}
@media (max-width:640px){dl{grid-template-columns:1fr}table{font-size:8pt}}
`;
}
