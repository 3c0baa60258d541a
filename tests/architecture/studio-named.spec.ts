import { describe, expect, it } from '@jest/globals';
import { untiedTables } from '../../bench/grow/studio-named.mjs';

const tables = new Set(['studios', 'clients', 'bikes', 'fit_sessions']);

describe('a statement can be sent to one node', () => {
  it.each([
    ['names the studio', 'SELECT * FROM clients WHERE studio_id = $1'],
    ['with its type', 'SELECT * FROM clients c WHERE c.studio_id = $1::uuid AND name = $2'],
    ['as part of a key', 'SELECT * FROM clients WHERE (studio_id, id) = ($1, $2)'],
    ['by a join', 'SELECT * FROM clients c JOIN bikes b ON b.studio_id = c.studio_id WHERE b.studio_id = $1'],
    [
      'by a join of names',
      'SELECT * FROM clients c LEFT JOIN bikes b USING (studio_id) WHERE c.studio_id = $1',
    ],
    [
      'by the studio’s own row',
      'SELECT * FROM studios s JOIN clients c ON c.studio_id = s.id WHERE s.id = $1',
    ],
    [
      'in each part of a union',
      'SELECT id FROM clients WHERE studio_id = $1 UNION ALL SELECT id FROM bikes WHERE studio_id = $1',
    ],
    [
      'through what stands outside a subquery',
      'SELECT (SELECT count(*) FROM bikes b WHERE b.studio_id = c.studio_id) FROM clients c WHERE c.studio_id = $1',
    ],
    [
      'within a CTE that another table is joined to',
      'WITH own AS (SELECT * FROM clients WHERE studio_id = $1) SELECT * FROM own JOIN bikes b ON b.studio_id = own.studio_id',
    ],
    ['when it writes', 'INSERT INTO clients (studio_id, id) VALUES ($1, $2)'],
    ['when it changes', 'UPDATE clients SET name = $3 WHERE studio_id = $1 AND id = $2'],
    ['of a table that belongs to no studio', 'SELECT * FROM mail_pace'],
  ])('%s', async (_, statement) => {
    expect(await untiedTables(statement, tables)).toEqual([]);
  });
});

describe('a statement can not', () => {
  it.each([
    ['leaves it to row-level security', 'SELECT * FROM clients WHERE id = $1', ['clients']],
    ['asks a function for it', 'SELECT * FROM clients WHERE studio_id = app_studio_id()', ['clients']],
    [
      'forgets it in a join',
      'SELECT * FROM clients c JOIN bikes b ON b.id = $2 WHERE c.studio_id = $1',
      ['bikes'],
    ],
    [
      'forgets it in one part of a union',
      'SELECT id FROM clients WHERE studio_id = $1 UNION SELECT id FROM bikes',
      ['bikes'],
    ],
    [
      'forgets it in a subquery that has a table of the same alias',
      'SELECT * FROM clients x WHERE x.studio_id = $1 AND EXISTS (SELECT FROM bikes x WHERE x.id = $2)',
      ['bikes'],
    ],
    ['asks several studios', 'SELECT * FROM clients WHERE studio_id = ANY ($1)', ['clients']],
    ['changes by id alone', 'UPDATE fit_sessions SET version = 2 WHERE id = $1', ['fit_sessions']],
    ['deletes by id alone', 'DELETE FROM fit_sessions WHERE id = $1', ['fit_sessions']],
    ['writes without it', 'INSERT INTO clients (id) VALUES ($1)', ['clients']],
  ])('%s', async (_, statement, untied) => {
    expect(await untiedTables(statement, tables)).toEqual(untied);
  });
});
