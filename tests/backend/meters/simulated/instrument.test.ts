import { describe, expect, it } from 'vitest';
import { SimulatedInstrument } from '../../../../electron/backend/meters/simulated/instrument.ts';

// Grammar, command set and error texts: SCPI-1999 and IEEE 488.2 as summarised in the shared standards notes, section
// 10 (message = units joined by ";", headers in long or short form, a leading ":" restarts at the root, error queue
// oldest first with -350 in place of the newest on overflow, 9.91E37 for "not a number"). Where those notes say
// "by memory" (volume 2 of SCPI-99), so are these.

const make = (parts: Partial<ConstructorParameters<typeof SimulatedInstrument>[0]> = {}) => {
  const instrument = new SimulatedInstrument({ source: (frequencyMhz) => frequencyMhz / 100, ...parts });
  return (line: string) => instrument.take(line).answer;
};
const errorAfter = (line: string) => {
  const ask = make();
  expect(ask(line)).toBeNull();
  return ask('SYST:ERR?');
};

describe('common commands (IEEE 488.2)', () => {
  it('tells four fields', () => {
    expect(make()('*IDN?')?.split(',')).toEqual([
      'Quillmere Instrument Works',
      'Bench Level Meter',
      'QIW-0042',
      '1.0',
    ]);
  });

  it.each(['*CLS', '*ESE 0', '*OPC', '*RST', '*SRE 0', '*WAI'])(
    'takes %s without an answer or an error',
    (line) => {
      const ask = make();
      expect(ask(line)).toBeNull();
      expect(ask('SYST:ERR?')).toBe('0,"No error"');
    },
  );

  it.each([
    ['*ESE?', '0'],
    ['*SRE?', '0'],
    ['*OPC?', '1'],
    ['*TST?', '0'],
    ['*STB?', '0'],
  ])('answers %s with %s', (line, answer) => expect(make()(line)).toBe(answer));

  it('says in its event register that it was switched on (128), and what kind of error came', () => {
    const ask = make();
    expect(ask('*ESR?')).toBe('128');
    expect(ask('*ESR?')).toBe('0');
    ask('NO:SUCH');
    ask('FREQ:CENT 9E9');
    expect(ask('*ESR?')).toBe(String(32 + 16));
  });

  it('sums up in its status byte: error queue 4, event 32, request 64', () => {
    const ask = make();
    ask('*ESE 32;*SRE 32');
    ask('NO:SUCH');
    expect(ask('*STB?')).toBe(String(4 + 32 + 64));
  });
});

describe('headers', () => {
  it.each([
    'SENSe:FREQuency:CENTer?',
    'SENS:FREQ:CENT?',
    'sens:freq:cent?',
    ':SENS:FREQ:CENT?',
    'SENSE1:FREQUENCY:CENTER?',
    'FREQ:CENT?',
    '\tFREQ:CENT? ',
  ])('understands %j', (line) => expect(make()(line)).toBe('100000000'));

  it.each(['SENSE:FREQUEN:CENT?', 'SEN:FREQ:CENT?', 'FREQ?', 'CENT?', 'SENS:FREQ:CENT:X?', 'READ:VOLT?'])(
    'does not understand %j: neither long nor short form',
    (line) => expect(errorAfter(line)).toBe('-113,"Undefined header"'),
  );

  it('has one input only', () => {
    expect(errorAfter('SENS2:FREQ:CENT?')).toBe('-114,"Header suffix out of range"');
  });

  it('continues the path behind a semicolon, and starts at the root behind a colon', () => {
    const ask = make();
    expect(ask('SENS:FREQ:CENT 711E6;CENT?;:READ:POW?;:SYST:ERR?')).toMatch(
      /^711000000;-41\.64;0,"No error"$/,
    );
    expect(ask('SENS:FREQ:CENT 57E6;READ:POW?')).toBeNull();
    expect(ask('SYST:ERR?')).toBe('-113,"Undefined header"');
  });

  it('lets a common command between two units leave the path alone', () => {
    expect(make()('SENS:FREQ:CENT 711E6;*WAI;CENT?')).toBe('711000000');
  });

  it('answers several queries in one line', () => {
    expect(make()('*OPC?;SYST:VERS?;:UNIT:POW?')).toBe('1;1999.0;DBM');
  });

  it('looks no further after a command error, and keeps what was answered', () => {
    const ask = make();
    expect(ask('*OPC?;NO:SUCH;*IDN?')).toBe('1');
    expect(ask('SYST:ERR:COUN?')).toBe('1');
  });

  it('goes on after an execution error', () => {
    expect(make()('FREQ:CENT 9E9;CENT?')).toBe('100000000');
  });
});

describe('parameters', () => {
  it.each([
    ['711000000', '711000000'],
    ['711E6', '711000000'],
    ['7.11e+8', '711000000'],
    ['.711E9', '711000000'],
    ['711 MHZ', '711000000'],
    ['711MHz', '711000000'],
    ['711 MAHZ', '711000000'],
    ['0.711 GHZ', '711000000'],
    ['711000 KHZ', '711000000'],
    ['MIN', '1000000'],
    ['MAXimum', '1300000000'],
    ['DEF', '100000000'],
  ])('takes the frequency %s', (written, hz) => {
    const ask = make();
    ask(`SENS:FREQ:CENT ${written}`);
    expect(ask('SENS:FREQ:CENT?;:SYST:ERR?')).toBe(`${hz};0,"No error"`);
  });

  it.each([
    ['FREQ:CENT', '-109,"Missing parameter"'],
    ['FREQ:CENT 1E8,2E8', '-108,"Parameter not allowed"'],
    ['FREQ:CENT? 5', '-108,"Parameter not allowed"'],
    ['FREQ:CENT 1E8,', '-102,"Syntax error"'],
    ['FREQ:CENT "711"', '-104,"Data type error"'],
    ['FREQ:CENT 71x1.5', '-121,"Invalid character in number"'],
    ['FREQ:CENT 711 DBM', '-131,"Invalid suffix"'],
    ['FREQ:CENT 1.4E9', '-222,"Data out of range"'],
    ['FREQ:CENT -1', '-222,"Data out of range"'],
    ['UNIT:POW FURLONG', '-224,"Illegal parameter value"'],
    ['*ESE 256', '-222,"Data out of range"'],
    ['*ESE high', '-104,"Data type error"'],
    ['FREQ:CENT=711', '-103,"Invalid separator"'],
    ['*:IDN?', '-102,"Syntax error"'],
    [';', '-102,"Syntax error"'],
    ['FREQ:CENT 711\xb5', '-101,"Invalid character"'],
  ])('refuses %j with %s', (line, error) => expect(errorAfter(line)).toBe(error));

  it('ignores an empty line', () => expect(errorAfter('')).toBe('0,"No error"'));
});

describe('levels', () => {
  it('starts in dBm and counts in whatever unit it is told: 0 dBmV is -48.75 dBm in 75 ohm, 60 dBuV, 1 mV', () => {
    const ask = make({ source: () => 0 });
    expect(ask('UNIT:POW?;:READ:POW?')).toBe('DBM;-48.75');
    expect(ask('UNIT:POW DBUV;POW?;:READ:POW?')).toBe('DBUV;60.00');
    expect(ask('UNIT:POW V;:READ:POW?')).toBe('1.0000E-3');
    expect(ask('UNIT:POWER DBMV;:READ?')).toBe('0.00');
    expect(ask('*RST;:UNIT:POW?')).toBe('DBM');
  });

  it('reads anew with READ? and MEASure?, and gives the reading again with FETCh?', () => {
    let readings = 0;
    const ask = make({
      source: (_frequencyMhz, draw) => {
        readings += 1;
        return draw;
      },
    });
    ask('UNIT:POW DBMV');
    expect(ask('READ:SCALAR:POWER:AC?;:FETC:POW?;:MEAS:POW?;:FETC?')).toBe('0.00;0.00;1.00;1.00');
    ask('INIT');
    expect(ask('FETC?')).toBe('2.00');
    expect(readings).toBe(3);
  });

  it('has nothing to fetch before the first reading, nor after another frequency was set', () => {
    expect(errorAfter('FETC?')).toBe('-230,"Data corrupt or stale"');
    const ask = make();
    ask('INIT;:FREQ:CENT 2E8');
    expect(ask('FETC?')).toBeNull();
  });

  it('answers 9.91E37 where there is no level', () => {
    expect(Number(make({ source: () => null })('READ:POW?'))).toBe(9.91e37);
  });

  it('says how many readings a message took, so that a wire can take that long', () => {
    const instrument = new SimulatedInstrument({ source: () => 0 });
    expect(instrument.take('READ?;READ?;*OPC?').readings).toBe(2);
    expect(instrument.take('*IDN?').readings).toBe(0);
  });
});

describe('the error queue', () => {
  it('gives the oldest first, then "No error", and is emptied by *CLS', () => {
    const ask = make();
    ask('NO:SUCH');
    ask('FREQ:CENT 9E9');
    expect(ask('SYST:ERR:COUN?')).toBe('2');
    expect(ask('SYST:ERR?')).toBe('-113,"Undefined header"');
    expect(ask('SYSTEM:ERROR:NEXT?')).toBe('-222,"Data out of range"');
    expect(ask('SYST:ERR?')).toBe('0,"No error"');
    ask('NO:SUCH');
    ask('*CLS');
    expect(ask('SYST:ERR?')).toBe('0,"No error"');
  });

  it('puts -350 in place of the newest when it is full', () => {
    const ask = make({ errorQueueDepth: 2 });
    for (const line of ['NO:SUCH', 'FREQ:CENT 9E9', 'FREQ:CENT', 'UNIT:POW X']) ask(line);
    expect(ask('SYST:ERR?')).toBe('-113,"Undefined header"');
    expect(ask('SYST:ERR?')).toBe('-350,"Queue overflow"');
    expect(ask('SYST:ERR?')).toBe('0,"No error"');
  });
});
