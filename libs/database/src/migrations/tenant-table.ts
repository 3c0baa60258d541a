/** The run-time roles. They own nothing and cannot bypass row-level security; migrations run as another role. */
const runtimeRoles = 'fitting_api, fitting_worker';

/**
 * The statements that put a table under its studio: row-level security, forced for the owner too, one policy,
 * and only the named privileges.
 */
export function tenantTable(
  table: string,
  privileges = 'SELECT, INSERT, UPDATE',
  studioColumn = 'studio_id',
): string[] {
  return [
    `ALTER TABLE ${table} ENABLE ROW LEVEL SECURITY`,
    `ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`,
    `CREATE POLICY ${table}_of_studio ON ${table}
       USING (${studioColumn} = app_studio_id()) WITH CHECK (${studioColumn} = app_studio_id())`,
    `GRANT ${privileges} ON ${table} TO ${runtimeRoles}`,
  ];
}
