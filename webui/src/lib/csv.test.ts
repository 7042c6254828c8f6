import { describe, expect, it } from 'vitest';
import { csv, fileName } from './csv';

describe('csv', () => {
  it('quotes what RFC 4180 says must be quoted', () => {
    expect(csv([['a,b', 'say "x"', 'two\nlines', 'plain', undefined, 1.5]])).toBe(
      '"a,b","say ""x""","two\nlines",plain,,1.5\r\n',
    );
  });

  // The beginnings are those of OWASP's page "CSV Injection".
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', ' =1', '＝1'])(
    'takes the force out of the text %j',
    (text) => {
      expect(
        csv([[text]])
          .replace(/^"/, '')
          .startsWith(`'`),
      ).toBe(true);
    },
  );

  it('leaves numbers as they are, and texts that only contain such signs', () => {
    expect(csv([[-4.6, 'Smith-Jones', 'a=b', 'x@example.org']])).toBe(
      '-4.6,Smith-Jones,a=b,x@example.org\r\n',
    );
  });

  it('names files by words', () => {
    expect(fileName(['Sportsman · Known', 'publication 3'], 'csv')).toBe('sportsman-known-publication-3.csv');
    expect(fileName(['Łucja Dvořáková'], 'csv')).toBe('łucja-dvořáková.csv');
  });
});
