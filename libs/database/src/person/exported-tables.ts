import type { EntityMetadata } from 'typeorm';
import { isSealed } from '../sealed-fields/sealed-fields.js';
import { lastOfPerson, personTables } from './person-tables.js';

type JsonSchema = Readonly<Record<string, unknown>>;

/** A table as a person's copy has it. */
export interface ExportedTable {
  readonly table: string;
  /** In the copy's JSON. */
  readonly name: string;
  /** Over it in the copy's page. */
  readonly title: string;
  readonly rows: string;
  readonly columns: readonly ExportedColumn[];
}

export interface ExportedColumn {
  /** In the database. */
  readonly column: string;
  readonly name: string;
  readonly schema: JsonSchema;
  readonly sealed: boolean;
}

const ofJson: Readonly<Record<string, JsonSchema>> = {
  uuid: { type: 'string', format: 'uuid' },
  text: { type: 'string' },
  date: { type: 'string', format: 'date' },
  timestamptz: { type: 'string', format: 'date-time' },
  tstzrange: { type: 'string' },
  boolean: { type: 'boolean' },
  smallint: { type: 'integer' },
  integer: { type: 'integer' },
  bigint: { type: 'integer' },
  numeric: { type: 'number' },
  'double precision': { type: 'number' },
};

/** Who of the staff wrote a row is about them; a hash is of a secret, and says nothing; what is weighed stands in the result. */
const leftOut = /(_by|^fitter_id|^user_id|^assigned_to|^studio_id|^stands_for_erased|^weighed)$/;

/** What a person's copy holds: all that is kept of them, but who of the staff wrote it. */
export function exportedTables(metadatas: readonly EntityMetadata[]): ExportedTable[] {
  return [...lastOfPerson, ...personTables].flatMap(({ table, title, rows }): ExportedTable[] => {
    if (title === null) return [];
    const metadata = metadatas.find(({ tableName }) => tableName === table);
    if (!metadata) throw new Error(`no entity of ${table}`);
    const columns = metadata.columns.flatMap((column): ExportedColumn[] => {
      const { databaseName, propertyName, type, isArray, isNullable } = column;
      if (leftOut.test(databaseName) || type === 'bytea') return [];
      return [
        {
          ...{ column: databaseName, name: propertyName, sealed: isSealed(column.transformer) },
          schema: schemaOf(String(type), isArray, isNullable),
        },
      ];
    });
    return [{ table, name: inCamelCase(table), title, rows, columns }];
  });
}

function schemaOf(type: string, isArray: boolean, isNullable: boolean): JsonSchema {
  if (type === 'jsonb') return {};
  const one = ofJson[type];
  if (!one) throw new Error(`no JSON schema for a column of type ${type}`);
  const schema: JsonSchema = isArray ? { type: 'array', items: one } : one;
  return isNullable ? { ...schema, type: [schema['type'], 'null'] } : schema;
}

const inCamelCase = (name: string): string =>
  name.replace(/_(\w)/g, (_, letter: string) => letter.toUpperCase());

/** The JSON Schema of a person's copy, as it is published. */
export function personExportSchema(metadatas: readonly EntityMetadata[]): JsonSchema {
  const text = { type: 'string' };
  const object = (properties: Record<string, JsonSchema>): JsonSchema => ({
    ...{ type: 'object', properties, required: Object.keys(properties), additionalProperties: false },
  });
  const listOf = (items: JsonSchema): JsonSchema => ({ type: 'array', items });
  const records = exportedTables(metadatas).map(({ name, title, columns }): [string, JsonSchema] => [
    name,
    {
      title,
      ...listOf(object(Object.fromEntries(columns.map((column) => [column.name, column.schema])))),
    },
  ]);
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'Everything a studio keeps about a person',
    ...object({
      format: { const: 'person-export' },
      version: { const: 1 },
      madeAt: { type: 'string', format: 'date-time' },
      studio: text,
      processing: listOf(
        object({
          ...{ name: text, purpose: text, legalBasis: text, persons: text },
          ...{ data: text, recipients: text, keptFor: text },
        }),
      ),
      records: object(Object.fromEntries(records)),
      files: listOf(object({ path: text, mediaType: text, of: { type: 'string', format: 'uuid' } })),
    }),
  };
}
