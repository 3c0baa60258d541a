import { Column, Entity } from 'typeorm';
import { TenantRow } from './columns.js';

/** One link of a chain that began at a sign-in (its family). Presenting a replaced link ends the family. */
@Entity('refresh_tokens')
export class RefreshToken extends TenantRow {
  @Column('uuid', { name: 'user_id' })
  userId: string;

  @Column('uuid', { name: 'family_id' })
  familyId: string;

  /** SHA-256 of the secret; the secret itself is never stored. */
  @Column('bytea', { name: 'secret_hash' })
  secretHash: Buffer;

  @Column('timestamptz', { name: 'issued_at', default: () => 'now()' })
  issuedAt: Date;

  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;

  @Column('timestamptz', { name: 'replaced_at', nullable: true })
  replacedAt: Date | null;

  @Column('timestamptz', { name: 'revoked_at', nullable: true })
  revokedAt: Date | null;

  /** Where and what asked for it, for its owner to recognise. */
  @Column('text', { name: 'from_address', nullable: true })
  fromAddress: string | null;

  @Column('text', { name: 'user_agent', nullable: true })
  userAgent: string | null;
}
