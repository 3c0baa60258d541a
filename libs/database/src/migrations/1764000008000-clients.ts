import type { MigrationInterface, QueryRunner } from 'typeorm';

/** What a desk keeps of a client beyond name and address: tags, a note, no contact, a guardian, a phone to compare by. */
export class Clients1764000008000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE client_consents DROP COLUMN guardian_id');
    await runner.query(
      `ALTER TABLE clients DROP COLUMN tags, DROP COLUMN note, DROP COLUMN do_not_contact, DROP COLUMN guardian_id,
         DROP COLUMN phone_e164`,
    );
  }
}

const statements = [
  `ALTER TABLE clients
     ADD tags text[] NOT NULL DEFAULT '{}',
     ADD note text,
     ADD do_not_contact boolean NOT NULL DEFAULT false,
     ADD guardian_id uuid,
     ADD phone_e164 text CONSTRAINT clients_phone_e164_form CHECK (phone_e164 ~ '^\\+[1-9][0-9]{6,14}$'),
     ADD CONSTRAINT clients_guardian_id_fkey FOREIGN KEY (studio_id, guardian_id) REFERENCES clients,
     ADD CONSTRAINT clients_guardian_is_another CHECK (guardian_id <> id)`,
  `CREATE INDEX clients_email ON clients (studio_id, email) WHERE email IS NOT NULL`,
  `CREATE INDEX clients_phone_e164 ON clients (studio_id, phone_e164) WHERE phone_e164 IS NOT NULL`,
  `ALTER TABLE client_consents
     ADD guardian_id uuid,
     ADD CONSTRAINT client_consents_guardian_id_fkey FOREIGN KEY (studio_id, guardian_id) REFERENCES clients`,
];
