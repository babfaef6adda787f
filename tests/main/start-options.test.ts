import { describe, expect, it } from 'vitest';
import { refusalLine } from '../../core/result.ts';
import { readStartOptions } from '../../electron/start-options.ts';

describe('the options of npm start', () => {
  it('have defaults', () => {
    expect(readStartOptions([])).toEqual({
      ok: true,
      value: { browser: false, open: true, data: undefined, port: null },
    });
  });

  it('are read', () => {
    expect(readStartOptions(['--browser', '--data', 'some where', '--no-open', '--port', '8080'])).toEqual({
      ok: true,
      value: { browser: true, open: false, data: 'some where', port: 8080 },
    });
    expect(readStartOptions(['--data=x'])).toMatchObject({ value: { data: 'x' } });
    expect(readStartOptions(['--port', '0'])).toMatchObject({ value: { port: 0 } });
  });

  it.each([
    [['--brwoser'], '--brwoser'],
    [['-x'], '-x'],
    [['file.csv'], 'file.csv'],
    [['--data'], '--data'],
    [['--data='], '--data'],
    [['--browser=no'], '--browser'],
    [['--port', '-1'], '--port'],
    [['--port', '0x50'], '--port 0x50'],
    [['--port', '65536'], '--port 65536'],
    [['--port', '80.5'], '--port 80.5'],
    [['--port', 'http'], '--port http'],
    [['--port', ''], '--port'],
  ])('that are wrong are named in one line: %j', (words, named) => {
    const read = readStartOptions(words);
    expect(read.ok).toBe(false);
    const line = read.ok ? '' : refusalLine(read);
    expect(line).toContain(named);
    expect(line).not.toContain('\n');
  });
});
