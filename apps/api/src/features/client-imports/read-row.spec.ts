import { describe, expect, it } from '@jest/globals';
import { suggestColumns } from './import-fields.js';
import { readRow, type DayForm } from './read-row.js';

const headers = ['First', 'Last', 'Mail', 'Phone', 'Born', 'Groups', 'Quiet'];
const columns = {
  ...{ givenName: 'First', familyName: 'Last', email: 'Mail', phone: 'Phone', bornOn: 'Born' },
  ...{ tags: 'Groups', doNotContact: 'Quiet' },
};
const read = (cells: string[], dayForm: DayForm = 'year_first') =>
  readRow(headers, cells, { columns, dayForm });

describe('a row of a list', () => {
  it('says what a client is kept as', () => {
    const cells = [
      ' Marta ',
      'Ferreira',
      'M@Riders.example',
      '+45 20 12 34 56',
      '1984-2-29',
      'Team A; vip',
      'Yes',
    ];
    expect(read(cells)).toEqual({
      problems: [],
      fields: {
        ...{ givenName: 'Marta', familyName: 'Ferreira', email: 'm@riders.example' },
        ...{ phone: '+45 20 12 34 56', phoneE164: '+4520123456', bornOn: '1984-02-29' },
        ...{ tags: ['team_a', 'vip'], doNotContact: true },
      },
    });
  });

  it('leaves out what is empty', () => {
    expect(read(['Marta', 'Ferreira', '', ' ', '', '', '']).fields).toEqual({
      givenName: 'Marta',
      familyName: 'Ferreira',
    });
  });

  it.each([
    ['day_first', '29.02.1984'],
    ['day_first', '29/2/1984'],
    ['month_first', '2/29/1984'],
    ['year_first', '1984/02/29'],
  ] as const)('reads days written %s', (form, day) => {
    expect(read(['M', 'F', '', '', day, '', ''], form).fields?.bornOn).toBe('1984-02-29');
  });

  it('takes off the apostrophe an export puts before what looks like a formula, and no other', () => {
    expect(read(["'=M", "'s Heer", '', "'+45 20 12 34 56", '', '', '']).fields).toMatchObject({
      ...{ givenName: '=M', familyName: "'s Heer", phoneE164: '+4520123456' },
    });
  });

  it.each([
    ['row', ['M', 'F']],
    ['givenName', ['', 'F', '', '', '', '', '']],
    ['email', ['M', 'F', 'nobody', '', '', '', '']],
    ['bornOn', ['M', 'F', '', '', '30.2.1984', '', '']],
    ['doNotContact', ['M', 'F', '', '', '', '', 'perhaps']],
  ])('names %s as what is wrong', (field, cells) => {
    expect(read(cells, 'day_first')).toMatchObject({ fields: null, problems: [{ field }] });
  });
});

describe('headers', () => {
  it('suggest what they hold, without case, spaces and signs', () => {
    expect(suggestColumns(['E-Mail', 'NACHNAME', 'Vor name', 'Shoe size', 'Date of birth'])).toEqual({
      ...{ email: 'E-Mail', familyName: 'NACHNAME', givenName: 'Vor name', bornOn: 'Date of birth' },
    });
  });
});
