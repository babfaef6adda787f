import { previewSweep } from '../../core/files/preview-sweep.ts';
import { readSweepFile } from '../../core/files/read-sweep-file.ts';

type Chance = () => number;

/** Small files of our own, one for each dialect; real ones come besides where they are there. */
export const ownSeeds: readonly string[] = [
  '# Ropewalk\nfrequency_mhz,level_dbmv,kind,mer_db,label\n57,36.2,qam,38.5,"2, lower"\n63,-1.25,cw,,\n',
  'Downstream\nChannel\tFrequency\tPower\tSNR\n1\t570.00 MHz\t-1.5 dBmV\t36 dB\n2\t578.00 MHz\t-1.7 dBmV\t36 dB\n\nUpstream\nChannel\tFrequency\tPower\n1\t16 MHz\t40 dBmV\n',
  'Frequenz (MHz);Pegel (dBµV)\n57,25;96,5\n63,25;58,5\n',
  '| Ch | Frequency | Power |\n|---|---|---|\n| 1 | 57000000 Hz | 36.5 dBmV |\n| 2 | 0 Hz | 0.0 |\n',
  'chid       freq  pow_dbmv     mod  snr\n   1   57000000      36.5  256qam   36\n       63000000      -1.5           37\n',
  'Channel ID\t1\t2\nFrequency\t57 MHz\t63000000\nPower Level\t365 TenthdBmV\t-15 TenthdBmV\nModulation\t256 QAM\tOFDM\n',
  'Frequency: 57 MHz\nPower: 36.5 dBmV\n\nFrequency: 63 MHz\nPower: -1.5 dBmV\n',
  '{"readings":[{"frequency_mhz":57.25,"level_dbmv":36.1,"locked":true},\n{"frequency_mhz":63,"level_dbmv":null,"locked":false}]}\n',
  'docsIfDownChannelFrequency.3 = INTEGER: 57000000 hertz\ndocsIfDownChannelFrequency.4 = INTEGER: 63000000 hertz\ndocsIfDownChannelPower.3 = INTEGER: 312 TenthdBmV\ndocsIfDownChannelPower.4 = INTEGER: -15 TenthdBmV\n',
  '12:03:55 ch 57 441.00 MHz 12.3 dBmV\n12:03:56 ch 58 447.00 MHz not locked\n12:03:57 ch 59 453.00 MHz -0.4 dBmV\n',
  'Ch;Freq;Level\n1;="112";✔ 4,0 (OK)\n2;118;-4,5\n\nLevels in dBmV, frequencies in MHz\n',
  '! a\n# MHz S DB R 75\n57 0 0 -3 0 -40 0 0 0\n63 0 0 -4 0 -40 0 0 0\n5 1 2 3 4\n',
  '[Version] 2.0\n# GHz S MA R 75\n[Number of Ports] 2\n[Two-Port Data Order] 21_12\n[Number of Frequencies] 1\n[Network Data]\n0.5 .9 0 .5 0 .1 0 .2 0\n[End]\n',
];

const pieces = [
  ...',;\t|:#!"\'\n\r -+.0123456789eE[]()/=~µ\u0000\uFFFD\uFEFF\u2212\u00A0─│'.split(''),
  ...[
    'MHz',
    'Hz',
    'dBmV',
    'dBµV',
    'dB',
    'tenths',
    '1,234',
    '54-60',
    'Not Locked',
    'Frequency',
    'Level',
    'Power',
    'constructor',
  ],
  ...[
    '__proto__',
    '1e999',
    '-',
    '\n\n',
    '256QAM',
    'Upstream',
    '"a\nb"',
    '0x10',
    '[End]',
    '# MHz S DB',
    'NaN',
  ],
];

const below = (chance: Chance, count: number): number => Math.floor(chance() * count);

/** A text with up to six changes: pieces put in, taken out, doubled, moved, lines dropped, swapped or cut. */
export function mutated(seed: string, chance: Chance): string {
  let text = seed;
  for (let changes = 1 + below(chance, 6); changes > 0; changes--) {
    const at = below(chance, text.length + 1);
    const width = below(chance, 12);
    const lines = text.split('\n');
    const line = below(chance, lines.length);
    switch (below(chance, 7)) {
      case 0:
      case 1:
        text = text.slice(0, at) + (pieces[below(chance, pieces.length)] ?? '') + text.slice(at);
        break;
      case 2:
        text = text.slice(0, at) + text.slice(at + width);
        break;
      case 3:
        text = text.slice(0, at) + text.slice(at, at + width).repeat(2) + text.slice(at + width);
        break;
      case 4:
        text = text.slice(0, at);
        break;
      case 5:
        lines.splice(line, 1);
        text = lines.join('\n');
        break;
      case 6:
        text = [...lines.slice(0, line), lines[below(chance, lines.length)] ?? '', ...lines.slice(line)].join(
          '\n',
        );
        break;
    }
  }
  return text;
}

const isNumberOrNone = (value: number | null | undefined) =>
  value === null || value === undefined || Number.isFinite(value);

/**
 * What is wrong with how a text was taken; null where nothing is. Whatever comes is read into finite numbers or refused
 * in one line, the preview says the same, and a text with something before it or behind it loses no row.
 */
export function importFault(text: string, fileName: string): string | null {
  const read = readSweepFile(text, fileName);
  if (!read.ok) {
    if (read.where === '' || read.help === '') return 'refused without a place or a word';
    if (/[\n\r]/.test(read.where + read.help)) return 'refused in more than one line';
  } else {
    for (const { frequencyMhz, levelDbmv, merDb, reason, unlocked } of read.value.rows) {
      if (!isNumberOrNone(frequencyMhz) || !isNumberOrNone(levelDbmv) || !isNumberOrNone(merDb))
        return 'a number that is none';
      if (frequencyMhz !== null && !(frequencyMhz > 0)) return 'a frequency that is not above 0';
      if ((frequencyMhz === null || levelDbmv === null) && reason === undefined && !unlocked)
        return 'a row without a reading and without a reason';
    }
    // Nothing is half taken: every line with two numbers is a row, is told of, or stands in what is not levels.
    if (read.value.holds === 'levels') {
      const preview = previewSweep(text, fileName);
      if (preview.refusal !== null) return 'read, and refused by the preview';
      if (preview.rowCount !== read.value.rows.length) return 'the preview counts other rows';
      const told = preview.tables.reduce((sum, { rowCount, taken }) => sum + (taken ? rowCount : 0), 0);
      if (told !== read.value.rows.length) return 'tables that tell another number of rows';
    }
  }
  return null;
}
