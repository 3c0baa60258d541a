import { describe, expect, it } from '@jest/globals';
import { describeFailure, problemOf } from './problem.filter.js';

/** As TypeORM hands on what PostgreSQL said. */
const fromPostgres = (code: string) =>
  Object.assign(new Error('Key (name)=(Marzipan) is told here'), { driverError: { code } });

describe('problemOf', () => {
  it.each(['57014', '55P03'])('asks to try again what took too long (SQLSTATE %s)', (code) => {
    expect(problemOf(fromPostgres(code), 'r')).toMatchObject({ status: 503, code: 'request.took-too-long' });
  });

  it('tells of a surprise only that there was one', () => {
    const surprise = fromPostgres('42P01');
    expect(problemOf(surprise, 'r')).toMatchObject({ status: 500, code: 'internal', requestId: 'r' });
    expect(JSON.stringify([problemOf(surprise, 'r'), describeFailure(surprise)])).not.toContain('Marzipan');
  });
});
