import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { report } from '../../electron/cli/verbs/report.ts';
import { joined } from '../backend/services/joined.ts';
import { throwAwayFolder } from '../support/archive.ts';
import { runInside } from '../support/command-line.ts';
import { readPdf } from '../support/pdf-text.ts';

const signal = new AbortController().signal;

async function archived() {
  const folder = throwAwayFolder();
  const { handlers, visit, archive, close } = await joined({ folder });
  const text = 'frequency_mhz,level_dbmv\n60,36\n400,40\n860,46\n';
  const order = { visitId: visit.visitId, portName: 'forward output', purpose: 'as-found' } as const;
  await handlers['sweeps.import']({ ...order, fileName: 'f.csv', text, testPointLossDb: 0 }, signal);
  await close();
  archive.close();
  const out = (name: string) => join(folder, name);
  const run = (...args: string[]) => runInside([report], ['report', ...args, '--data', folder]);
  return { folder, out, run, visitId: visit.visitId };
}

describe('report', () => {
  it('writes the newest visit of a station that is named by id, by name or by a part of it', async () => {
    const { run, out, visitId } = await archived();
    for (const [i, named] of ['slipway', 'Slipway 2', 'SLIP', visitId].entries()) {
      const ran = await run(named, '--out', out(`${i}.pdf`), '--paper', 'letter', '--json');
      expect(ran).toMatchObject({ exitCode: 0, stderr: '' });
      expect(JSON.parse(ran.stdout)).toMatchObject({ kind: 'visit', visitId, form: 'pdf', paper: 'letter' });
    }
    expect((await readPdf(readFileSync(out('0.pdf')))).pages[0]?.widthPt).toBe(612);
  });

  it('writes one page of HTML, a history, labels and a period', async () => {
    const { run, out } = await archived();
    expect((await run('slipway', '--out', out('v.html'))).exitCode).toBe(0);
    expect(readFileSync(out('v.html'), 'utf8')).toContain('<title>Slipway 2, visit of');
    expect((await run('slipway', '--history', '--out', out('h.html'))).exitCode).toBe(0);
    expect(readFileSync(out('h.html'), 'utf8')).toContain('Station history');
    expect((await run('slipway', '--label', '2', '--out', out('l.html'))).exitCode).toBe(0);
    expect(readFileSync(out('l.html'), 'utf8').match(/<svg/g)).toHaveLength(2);
    expect((await run('2000-01-01..2099-12-31', '--out', out('p.html'))).exitCode).toBe(0);
    expect(readFileSync(out('p.html'), 'utf8')).toContain('Slipway 2');
  });

  it.each([
    [['nowhere', '--out', 'x.pdf'], 'there are Slipway 2'],
    [['slipway', '--out', 'x.doc'], '.pdf or .html'],
    [['slipway', '--out', 'x.pdf', '--paper', 'a3'], 'a4 or letter'],
    [['2026-02-31..2026-03-01', '--out', 'x.pdf'], 'is no day'],
    [['2026-03-02..2026-03-01', '--out', 'x.pdf'], 'must not be after'],
    [['slipway', '--out', 'no/such/folder/x.pdf'], 'can\u2019t be written'.replace('\u2019', "'")],
  ])('refuses %j in one line', async (args, words) => {
    const { run } = await archived();
    const ran = await run(...args);
    expect(ran.exitCode).toBe(2);
    expect(ran.stderr).toContain(words);
    expect(ran.stderr.trim().split('\n')).toHaveLength(1);
    expect(existsSync('x.pdf')).toBe(false);
  });

  it('writes over no file that is there', async () => {
    const { run, out } = await archived();
    writeFileSync(out('v.html'), 'signed');
    const ran = await run('slipway', '--out', out('v.html'));
    expect(ran).toMatchObject({ exitCode: 2, stdout: '' });
    expect(ran.stderr).toContain('nothing is written over');
    expect(readFileSync(out('v.html'), 'utf8')).toBe('signed');
  });

  it('fails without an archive, and makes none', async () => {
    const folder = throwAwayFolder();
    const ran = await runInside([report], ['report', 'x', '--out', join(folder, 'x.pdf'), '--data', folder]);
    expect(ran.exitCode).toBe(3);
    expect(existsSync(join(folder, 'tiltwright.sqlite'))).toBe(false);
  });
});
