import { OURS, PRACTICE, type Topic } from '../term.ts';

export const trust: Topic = {
  name: 'How sure, and how it is kept',
  terms: [
    {
      id: 'uncertainty',
      name: 'Uncertainty',
      also: ['accuracy', 'good to', 'plus minus'],
      words:
        'How far the true value may lie from what was read. Meter, test point and temperature each have a share, and what all channels have in common does not blur tilt or flatness.',
      formula: 'u = \u221A\u03A3 u\u00B2; 95 of 100 times within \u00B11.96 u',
      source: 'JCGM 100:2008, 5.2.2, as other programs cite it; other sections as each number names them.',
      see: ['guard-band', 'undecided', 'test-point'],
    },
    {
      id: 'guard-band',
      name: 'Guard band',
      also: ['limit', 'acceptance'],
      words:
        'A strip on either side of a limit that is as wide as the reading is uncertain. Inside of it neither pass nor fail can be said in earnest.',
      formula: 'pass from a chance of 95 %, fail up to 5 %',
      source: 'JCGM 106:2012, 8.3, from memory; 95 % is this program\u2019s choice.',
      see: ['undecided', 'uncertainty'],
    },
    {
      id: 'undecided',
      name: 'Undecided',
      also: ['verdict', 'pass', 'fail'],
      words:
        'The verdict where the limit lies within what the reading is uncertain by. A better meter, or the mean of several readings, decides it; a second look by the same meter does not.',
      formula: '5 % < P(inside the limits) < 95 %',
      source: 'JCGM 106:2012, 7.3, as other programs cite it, and 8.3, from memory.',
      see: ['guard-band', 'uncertainty'],
    },
    {
      id: 'control-chart',
      name: 'Control chart',
      also: ['shewhart', 'run rules', 'limits'],
      words:
        'A figure of a station over its visits, with the band in which chance alone would leave it. A point outside, or a run to one side, says that something changed.',
      formula: 'mean \u00B1 2.66 \u00B7 mean moving range',
      source: 'NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2.',
      see: ['drift', 'as-left'],
    },
    {
      id: 'drift',
      name: 'Drift',
      also: ['trend', 'ageing', 'aging'],
      words:
        'A slow change over the years that weather and repairs do not explain. It is called so only where standing still would look like it in fewer than one of a hundred stations.',
      formula: 'slope of least squares over the years, at one temperature',
      source: `Student\u2019s t test of the slope. One in a hundred and a tenth of a dB a year: ${PRACTICE.toLowerCase()}`,
      see: ['control-chart', 'as-found'],
    },
    {
      id: 'calibration',
      name: 'Calibration',
      also: ['certificate', 'due'],
      words:
        'When a meter was last held against a better one, and until when that is meant to hold. A sweep keeps the date, and says so when it was past.',
      formula: 'past when the day of reading is after the day due',
      source: `The certificate of the meter. ${OURS}`,
      see: ['uncertainty', 'test-point'],
    },
    {
      id: 'hash-chain',
      name: 'Hash chain',
      also: ['chain head', 'tamper', 'proof', 'sha-256'],
      words:
        'Each record carries a number made from itself and from the record before, so that nothing can be changed, taken out or put in unseen. It shows tampering and does not prevent it: keep the head of the chain somewhere else.',
      formula: 'hash = SHA-256(kind, place, hash before, record)',
      source: 'SHA-256: FIPS 180-4; the text of a record: RFC 8785 without fractions.',
      see: ['void', 'correction'],
    },
    {
      id: 'void',
      name: 'Void',
      also: ['strike out', 'delete', 'invalid'],
      words:
        'A sweep that is struck out with a name and a reason, because it should never count. It stays in the record for anybody to see; nothing is judged by it.',
      formula: 'a record that names another',
      source: OURS,
      see: ['correction', 'hash-chain'],
    },
    {
      id: 'correction',
      name: 'Correction',
      also: ['amend', 'put right'],
      words:
        'A new record with the same readings and one note put right, such as the test point\u2019s loss or the port. The older one stays beside it and no longer counts.',
      formula: 'level at the port = meter + corrected loss',
      source: OURS,
      see: ['void', 'test-point', 'sweep'],
    },
    {
      id: 'revision',
      name: 'Revision',
      also: ['undo', 'history of settings'],
      words:
        'Settings, notes and the truck are kept as a whole each time they change, and older ones stay. To undo is therefore to keep the older content once more, as the newest revision.',
      formula: 'newest revision = what holds now',
      source: OURS,
      see: ['truck', 'line-up'],
    },
  ],
};
