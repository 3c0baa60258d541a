import { AccountSettings, Part, TaxRate, type SqlRunner } from '@studio/database';
import { MoreThan, type EntityManager } from 'typeorm';

interface Key {
  readonly studioId: string;
  readonly id: string;
}

type Fields<Row> = Partial<Omit<Row, 'studioId' | 'id' | 'createdAt' | 'version' | 'retiredAt'>>;

export function findSettings(tx: EntityManager, studioId: string): Promise<AccountSettings | null> {
  return tx.findOneBy(AccountSettings, { studioId });
}

export async function insertSettings(
  tx: EntityManager,
  studioId: string,
  fields: Fields<AccountSettings>,
): Promise<void> {
  await tx.insert(AccountSettings, { studioId, ...fields });
}

/** As every change of a row: only while it has the version the change was made from; tells whether it did. */
export async function updateSettings(
  tx: EntityManager,
  key: { studioId: string; version: number },
  fields: Fields<AccountSettings>,
): Promise<boolean> {
  const { affected } = await tx.update(AccountSettings, key, { ...fields, version: key.version + 1 });
  return affected === 1;
}

export async function insertTaxRate(
  tx: EntityManager,
  studioId: string,
  fields: Fields<TaxRate>,
): Promise<string> {
  const { identifiers } = await tx.insert(TaxRate, { studioId, ...fields });
  return (identifiers[0] as { id: string }).id;
}

export function findTaxRate(tx: EntityManager, key: Key): Promise<TaxRate | null> {
  return tx.findOneBy(TaxRate, key);
}

export async function updateTaxRate(
  tx: EntityManager,
  key: Key & { version: number },
  fields: Fields<TaxRate>,
): Promise<boolean> {
  const { affected } = await tx.update(TaxRate, key, { ...fields, version: key.version + 1 });
  return affected === 1;
}

export function listTaxRates(
  tx: EntityManager,
  page: { studioId: string; after: string | undefined; limit: number },
): Promise<TaxRate[]> {
  const { studioId, after, limit } = page;
  return tx.find(TaxRate, {
    where: { studioId, ...(after !== undefined && { id: MoreThan(after) }) },
    order: { id: 'ASC' },
    take: limit,
  });
}

/** The rate of every tax class that has one on a day, in percent. */
export async function taxRatesOn(
  sql: SqlRunner,
  { studioId, day }: { studioId: string; day: string },
): Promise<Map<string, string>> {
  const rows = await sql.query<{ taxClass: string; percent: string }[]>(
    `SELECT tax_class AS "taxClass", trim_scale(tax_rate_percent)::text AS percent FROM tax_rates
      WHERE studio_id = $1 AND daterange(valid_from, valid_until, '[]') @> $2::date`,
    [studioId, day],
  );
  return new Map(rows.map(({ taxClass, percent }) => [taxClass, percent]));
}

export async function insertPart(tx: EntityManager, studioId: string, fields: Fields<Part>): Promise<string> {
  const { identifiers } = await tx.insert(Part, { studioId, ...fields });
  return (identifiers[0] as { id: string }).id;
}

export function findPart(tx: EntityManager, key: Key): Promise<Part | null> {
  return tx.findOneBy(Part, key);
}

export async function updatePart(
  tx: EntityManager,
  key: Key & { version: number },
  fields: Fields<Part>,
  retired: boolean | undefined,
): Promise<boolean> {
  const { affected } = await tx.update(Part, key, {
    ...fields,
    ...(retired !== undefined && { retiredAt: retired ? () => 'coalesce(retired_at, app_now())' : null }),
    version: key.version + 1,
  });
  return affected === 1;
}

export function listParts(
  tx: EntityManager,
  page: { studioId: string; after: string | undefined; limit: number },
): Promise<Part[]> {
  const { studioId, after, limit } = page;
  return tx.find(Part, {
    where: { studioId, ...(after !== undefined && { id: MoreThan(after) }) },
    order: { id: 'ASC' },
    take: limit,
  });
}
