import { createDataSource, StudioHandle, verifyAudit, verifyRecords } from '@studio/database';
import pg from 'pg';

export interface RestoredStudio {
  readonly handle: string;
  readonly signatures: number;
  readonly brokenRecords: number;
  readonly seals: number;
  readonly brokenSeals: number;
}

/**
 * Check a restored database as its users will find it: signed records and audit log of every studio against their
 * chains, and the roles of the apps against what they must not be able to do.
 *
 * @returns the studios, and in words what is wrong; nothing, if all is well
 */
export async function checkRestored(urls: {
  apiUrl: string;
  workerUrl: string;
}): Promise<{ studios: RestoredStudio[]; wrong: string[] }> {
  const studios = await checkChains(urls.apiUrl);
  const wrong = studios
    .filter(({ brokenRecords, brokenSeals }) => brokenRecords + brokenSeals > 0)
    .map(({ handle }) => `${handle}: signed records or audit log are not as they were`);
  for (const url of [urls.apiUrl, urls.workerUrl]) wrong.push(...(await checkRole(url)));
  return { studios, wrong };
}

async function checkChains(url: string): Promise<RestoredStudio[]> {
  const dataSource = createDataSource({ url, poolSize: 1, applicationName: 'studio-restore' });
  await dataSource.initialize();
  try {
    const studios: RestoredStudio[] = [];
    for (const { handle, studioId } of await dataSource.manager.find(StudioHandle, {
      order: { handle: 'ASC' },
    })) {
      await dataSource.transaction(async (tx) => {
        await tx.query(`SELECT set_config('app.studio_id', $1, true)`, [studioId]);
        const records = await verifyRecords(tx, studioId);
        const audit = await verifyAudit(tx, studioId);
        studios.push({
          ...{ handle, signatures: records.signatures, brokenRecords: records.broken.length },
          ...{ seals: audit.seals, brokenSeals: audit.broken.length },
        });
      });
    }
    return studios;
  } finally {
    await dataSource.destroy();
  }
}

/** Asked as the role itself. */
async function checkRole(url: string): Promise<string[]> {
  const client = new pg.Client({ connectionString: url, application_name: 'studio-restore' });
  await client.connect();
  try {
    const { rows } = await client.query<{ wrong: string }>(
      `SELECT current_user || ' may pass row-level security' AS wrong
         FROM pg_roles WHERE rolname = current_user AND (rolsuper OR rolbypassrls)
       UNION ALL
       SELECT current_user || ' owns ' || relname
         FROM pg_class WHERE relnamespace = 'public'::regnamespace AND pg_has_role(current_user, relowner, 'MEMBER')
       UNION ALL
       SELECT c.relname || ' is open to every studio'
         FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attname = 'studio_id'
        WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p') AND NOT (c.relrowsecurity AND c.relforcerowsecurity)`,
    );
    const { rows: seen } = await client.query<{ n: number }>('SELECT count(*)::int AS n FROM clients');
    const nobodys =
      seen[0]?.n === 0 ? [] : [`${new URL(url).username} sees clients of no studio in particular`];
    return [...rows.map(({ wrong }) => wrong), ...nobodys];
  } finally {
    await client.end();
  }
}
