/** Runs SQL; both a transaction's EntityManager and a `TenantReads` reader are one. */
export interface SqlRunner {
  query<Rows>(sql: string, parameters?: unknown[]): Promise<Rows>;
}
