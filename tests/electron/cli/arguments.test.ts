import { commandOf } from '@electron/cli/arguments';
import { describe, expect, it } from 'vitest';

const of = (line: string) => commandOf(line === '' ? [] : line.split(' '));

describe('the words of the command line', () => {
  it('are understood in any order', () => {
    const asked = { verb: 'check', file: 'a.json', arrangement: 'port', json: true, strict: true };
    expect(of('check a.json --json --arrangement port --strict')).toEqual(asked);
    expect(of('check --arrangement=port --strict --json a.json')).toEqual(asked);
    expect(of('check a.json')).toEqual({ ...asked, arrangement: null, json: false, strict: false });
    expect(of('list a --csv out.csv')).toEqual({
      verb: 'list',
      file: 'a',
      arrangement: null,
      csvFile: 'out.csv',
      xlsxFile: null,
    });
    expect(of('survey a.json --json')).toEqual({ verb: 'survey', file: 'a.json', json: true });
    expect(of('hull a --heel -10 --json')).toEqual({ verb: 'hull', file: 'a', heelDeg: -10, json: true });
    expect(of('hull --draught=.6 a')).toEqual({ verb: 'hull', file: 'a', draughtM: 0.6, json: false });
    expect(of('schema')).toEqual({ verb: 'schema', of: 'boat' });
    expect(of('schema --report')).toEqual({ verb: 'schema', of: 'report' });
    expect(of('--help')).toEqual({ verb: 'help' });
    expect(of('hull --help')).toEqual({ verb: 'help' });
    expect(of('survey a.json -h')).toEqual({ verb: 'help' });
  });

  it.each([
    ['', 'a command is needed'],
    ['judge a.json', 'unknown command judge'],
    ['toString a.json', 'unknown command toString'],
    ['check', 'needs a boat file'],
    ['check a.json b.json', 'also b.json'],
    ['check a.json --csv out.csv', 'knows no --csv'],
    ['check a.json --constructor', 'knows no --constructor'],
    ['check a.json --arrangement', 'needs a value'],
    ['check a.json --arrangement --json', 'needs a value'],
    ['check a.json --json --json', 'given twice'],
    ['check a.json --json=yes', 'takes no value'],
    ['survey', 'needs a boat file'],
    ['survey a.json --strict', 'knows no --strict'],
    ['schema a.json', 'takes no file'],
    ['hull', 'needs a boat file'],
    ['hull a --heel 90', '--heel is 90; a number above -90 and below 90 is needed, in degrees'],
    ['hull a --heel ten', '--heel is ten; a number above -90 and below 90'],
    ['hull a --heel 0x10', '--heel is 0x10'],
    ['hull a --draught 0', '--draught is 0; a number above 0 and below 1000 is needed, in metres'],
    ['hull a --draught -0.2', '--draught is -0.2'],
    ['hull a --draught 1,5', '--draught is 1,5'],
    ['hull a --strict', 'knows no --strict'],
  ])('"%s" is refused in plain words', (line, words) => {
    const answer = of(line);
    expect('wrong' in answer && answer.wrong).toContain(words);
  });
});
