import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import type { DataSource } from 'typeorm';
import { createTestDatabase, type TestDatabase } from '../../../../tests/helpers/database.js';
import { createDataSource } from '../data-source.js';
import { IntakeAndReferrals1764000004000 } from './1764000004000-intake-and-referrals.js';

let database: TestDatabase;
let owner: DataSource;
let admin: pg.Client;

beforeAll(async () => {
  database = await createTestDatabase();
  owner = await createDataSource({
    url: database.ownerUrl,
    poolSize: 1,
    applicationName: 'test',
  }).initialize();
  admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
});
afterAll(async () => {
  await admin.end();
  await owner.destroy();
  await database.drop();
});

const studio = '0199d000-0000-7000-8000-000000000001';
const user = '0199d000-0000-7000-8000-000000000002';
const client = '0199d000-0000-7000-8000-000000000003';
const screenings = ['0199d000-0000-7000-8000-000000000011', '0199d000-0000-7000-8000-000000000012'];

describe('screenings and clearances from before', () => {
  it('come over: each raised finding a row, each clearance for everything it cleared', async () => {
    const runner = owner.createQueryRunner();
    const migration = new IntakeAndReferrals1764000004000();
    await migration.down(runner);
    await admin.query(`INSERT INTO studios (id, name, time_zone) VALUES ($1, 'S', 'Europe/Copenhagen')`, [
      studio,
    ]);
    await admin.query(
      `INSERT INTO users (studio_id, id, email, display_name, password_hash, roles)
       VALUES ($1, $2, 'a@b.example', 'A', '-', '{owner}')`,
      [studio, user],
    );
    await admin.query(
      `INSERT INTO clients (studio_id, id, given_name, family_name) VALUES ($1, $2, 'A', 'B')`,
      [studio, client],
    );
    const result = {
      findings: [
        { ruleId: 'first', result: 'raised' },
        { ruleId: 'second', result: 'cannot_tell' },
        { ruleId: 'third', result: 'raised' },
      ],
    };
    for (const id of screenings) {
      await admin.query(
        `INSERT INTO screenings (studio_id, id, client_id, occasion, question_set_id, question_set_version, answers,
                                 rule_set_version, result, permission_level)
         VALUES ($1, $2, $3, 'intake', 'rider-intake', '1', '{}', '2026.1', $4, 'none')`,
        [studio, id, client, result],
      );
    }
    await admin.query(
      `INSERT INTO clearances (studio_id, client_id, screening_id, reason, cleared_by_clinician, recorded_by)
       VALUES ($1, $2, $3, 'Seen.', 'Dr A. Holm', $4)`,
      [studio, client, screenings[0], user],
    );

    await migration.up(runner);
    await runner.release();
    const { rows } = await admin.query<object>(
      `SELECT f.screening_id AS screening, f.rule_id AS rule, c.scope, c.valid_until AS until
         FROM findings f
         LEFT JOIN cleared_findings k ON k.studio_id = f.studio_id AND k.finding_id = f.id
         LEFT JOIN clearances c ON c.studio_id = k.studio_id AND c.id = k.clearance_id
        ORDER BY f.screening_id, f.rule_id`,
    );
    const scope = ['riding', 'hard_effort', 'provocation_test', 'cleat_change', 'shoe_work'];
    expect(rows).toEqual([
      { screening: screenings[0], rule: 'first', scope, until: null },
      { screening: screenings[0], rule: 'third', scope, until: null },
      { screening: screenings[1], rule: 'first', scope: null, until: null },
      { screening: screenings[1], rule: 'third', scope: null, until: null },
    ]);
    // The owner of the tables is bound again.
    const bound = await admin.query<{ relforcerowsecurity: boolean }>(
      `SELECT relforcerowsecurity FROM pg_class WHERE relname = ANY ($1)`,
      [['screenings', 'clearances', 'findings', 'cleared_findings']],
    );
    expect(bound.rows.map(({ relforcerowsecurity }) => relforcerowsecurity)).toEqual([
      true,
      true,
      true,
      true,
    ]);
  });
});
