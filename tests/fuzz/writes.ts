import pg from 'pg';

/** What is written whatever comes of the request, so that it can be held against its sender. */
const onPurpose = ['audit_entries', 'sign_in_attempts'];

/** Tells which tables a request wrote to and committed: every table of the database notes its changed rows. */
export class Writes {
  private constructor(private readonly database: pg.Client) {}

  static async watch(adminUrl: string): Promise<Writes> {
    const database = new pg.Client({ connectionString: adminUrl });
    await database.connect();
    await database.query(`
      CREATE UNLOGGED TABLE fuzz_writes (table_name text NOT NULL);
      CREATE FUNCTION fuzz_note_write() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER AS $$
        BEGIN INSERT INTO public.fuzz_writes VALUES (TG_TABLE_NAME); RETURN NULL; END $$`);
    const { rows } = await database.query<{ name: string }>(
      `SELECT c.oid::regclass::text AS name FROM pg_class c
        WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p') AND NOT c.relispartition
          AND c.relname <> ALL ($1)`,
      [['fuzz_writes', ...onPurpose]],
    );
    for (const { name } of rows) {
      await database.query(
        `CREATE TRIGGER fuzz_note_write AFTER INSERT OR UPDATE OR DELETE ON ${name}
           FOR EACH ROW EXECUTE FUNCTION fuzz_note_write()`,
      );
    }
    return new Writes(database);
  }

  /** The tables written to since it was asked last. */
  async since(): Promise<string[]> {
    const { rows } = await this.database.query<{ table_name: string }>(
      'DELETE FROM fuzz_writes RETURNING table_name',
    );
    return [...new Set(rows.map(({ table_name }) => table_name))].sort();
  }

  async end(): Promise<void> {
    await this.database.end();
  }
}
