import { commandOf } from '@electron/cli/arguments';
import { describe, expect, it } from 'vitest';

const of = (line: string) => commandOf(line === '' ? [] : line.split(' '));

describe('the words of the command line', () => {
  it('are understood in any order', () => {
    const asked = { verb: 'check', file: 'a.json', arrangement: 'port', json: true, strict: true };
    expect(of('check a.json --json --arrangement port --strict')).toEqual(asked);
    expect(of('check --arrangement=port --strict --json a.json')).toEqual(asked);
    expect(of('check a.json')).toEqual({ ...asked, arrangement: null, json: false, strict: false });
    expect(of('list a --csv out.csv')).toEqual({ verb: 'list', file: 'a', arrangement: null, csvFile: 'out.csv' });
    expect(of('survey a.json --json')).toEqual({ verb: 'survey', file: 'a.json', json: true });
    expect(of('schema')).toEqual({ verb: 'schema', of: 'boat' });
    expect(of('schema --report')).toEqual({ verb: 'schema', of: 'report' });
    expect(of('--help')).toEqual({ verb: 'help' });
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
  ])('"%s" is refused in plain words', (line, words) => {
    const answer = of(line);
    expect('wrong' in answer && answer.wrong).toContain(words);
  });
});
