import { describe, expect, it } from 'vitest';
import { gradeOf } from './keys';

describe('what is typed for a grade', () => {
  it.each([
    ['', ''],
    [' ', ''],
    ['7.5', '7.5'],
    ['7,5', '7.5'],
    ['75', '7.5'],
    ['8', '8.0'],
    ['80', '8.0'],
    ['8.', '8.0'],
    ['05', '0.5'],
    ['0', '0.0'],
    ['1', '1.0'],
    ['10', '10.0'],
    ['100', '10.0'],
    ['10.0', '10.0'],
    ['/', 'HZ'],
    ['hz', 'HZ'],
    ['*', 'PZ'],
    ['p', 'PZ'],
    ['-', 'A'],
    ['a', 'A'],
  ])('%j is %j', (typed, grade) => expect(gradeOf(typed)).toBe(grade));

  it.each(['7.3', '11', '105', '10.5', 'x', '7.5.', '-1', '1e1', '٧', '7 5'])('%j is none', (typed) =>
    expect(gradeOf(typed)).toBeUndefined(),
  );

  it('knows every grade in each way that it can be written', () => {
    for (let half = 0; half <= 20; half++) {
      const grade = (half / 2).toFixed(1);
      expect(gradeOf(grade)).toBe(grade);
      expect(gradeOf(grade.replace('.', ','))).toBe(grade);
      // Without a point 10 is ten, so that one is typed 1.
      if (grade !== '1.0') expect(gradeOf(grade.replace('.', ''))).toBe(grade);
    }
  });
});
