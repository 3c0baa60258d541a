// Fails when the migrated database and the entities tell of different tables or columns, and when a migration would keep
// the users of a table that is in use waiting.
import { dangersOf, firstReleased, rules } from './services/migration-safety.mjs';
import { startThrowaway } from './services/throwaway.mjs';

/** Tables that belong to no entity: TypeORM's own, the clock, the pace per mail domain, the workers' signs of life. */
const withoutEntity = new Set(['migrations', 'test_clock', 'mail_pace', 'worker_heartbeats']);

const { createDataSource } = await import('@studio/database');
const throwaway = await startThrowaway('check', { database: 'studio_check' });
const dataSource = createDataSource({ url: throwaway.urls.ownerUrl, poolSize: 1, applicationName: 'check' });
try {
  await dataSource.initialize();
  /** @type {{ column: string }[]} */
  const rows = await dataSource.query(
    `SELECT c.relname || '.' || a.attname || ' ' || format_type(a.atttypid, NULL)
              || CASE WHEN a.attnotnull THEN ' not null' ELSE '' END AS column
         FROM pg_attribute a JOIN pg_class c ON c.oid = a.attrelid
        WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p') AND NOT c.relispartition
          AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = '' AND c.relname <> ALL ($1)`,
    [[...withoutEntity]],
  );
  const migrated = new Set(rows.map(({ column }) => column));
  const declared = new Set(
    dataSource.entityMetadatas.flatMap(({ tableName, columns }) =>
      columns.map((column) => {
        const type = { timestamptz: 'timestamp with time zone' }[String(column.type)] ?? String(column.type);
        return `${tableName}.${column.databaseName} ${type}${column.isArray ? '[]' : ''}${column.isNullable ? '' : ' not null'}`;
      }),
    ),
  );
  const report = (
    /** @type {string} */ where,
    /** @type {Set<string>} */ has,
    /** @type {Set<string>} */ lacks,
  ) => {
    for (const column of has) {
      if (lacks.has(column)) continue;
      console.error(`only in the ${where}: ${column}`);
      process.exitCode = 1;
    }
  };
  report('migrations', migrated, declared);
  report('entities', declared, migrated);
  await checkSafety(dataSource.migrations);
} finally {
  if (dataSource.isInitialized) await dataSource.destroy();
  await throwaway.stop();
}

/** @param {readonly import('typeorm').MigrationInterface[]} migrations */
async function checkSafety(migrations) {
  for (const migration of migrations) {
    const { name } = migration.constructor;
    if (Number(/\d{13}$/.exec(name)?.[0]) < firstReleased) continue;
    /** @type {string[]} */
    const statements = [];
    const recorder = {
      query: (/** @type {string} */ sql) => Promise.resolve(statements.push(sql)).then(() => []),
    };
    await migration.up(/** @type {import('typeorm').QueryRunner} */ (/** @type {unknown} */ (recorder)));
    for (const { rule, statement } of await dangersOf(statements, migration)) {
      console.error(`${name}: ${rule}: ${rules[rule]}\n  ${statement}`);
      process.exitCode = 1;
    }
  }
}
