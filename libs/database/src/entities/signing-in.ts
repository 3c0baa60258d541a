import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';
import type { Role } from './user.js';

/** The key a studio's sealed fields are sealed with, itself sealed with the master key. Without it they are noise. */
@Entity('studio_keys')
export class StudioKey extends RecordedRow {
  @Column('text', { name: 'master_key_id' })
  masterKeyId: string;

  /** Null once it was destroyed: there is no other afterwards. */
  @Column('bytea', { name: 'wrapped_key', nullable: true })
  wrappedKey: Buffer | null;

  @Column('timestamptz', { name: 'destroyed_at', nullable: true })
  destroyedAt: Date | null;
}

abstract class OfUser extends RecordedRow {
  @Column('uuid', { name: 'user_id' })
  userId: string;
}

/** A person's time-based one-time codes (RFC 6238); counts from when the first code was given back. */
@Entity('second_factors')
export class SecondFactor extends OfUser {
  @Column('bytea', { name: 'sealed_secret' })
  sealedSecret: Buffer;

  @Column('timestamptz', { name: 'confirmed_at', nullable: true })
  confirmedAt: Date | null;

  /** The newest 30-second step a code was taken for: none is taken twice. */
  @Column('bigint', { name: 'last_step', nullable: true })
  lastStep: string | null;
}

@Entity('recovery_codes')
export class RecoveryCode extends OfUser {
  /** SHA-256: a code has 120 random bits. */
  @Column('bytea', { name: 'code_hash' })
  codeHash: Buffer;

  @Column('timestamptz', { name: 'used_at', nullable: true })
  usedAt: Date | null;
}

/** Lets a program act as a person, with some of the person's roles. */
@Entity('api_keys')
export class ApiKey extends OfUser {
  @Column('text')
  name: string;

  @Column('bytea', { name: 'secret_hash' })
  secretHash: Buffer;

  @Column('text', { array: true })
  roles: Role[];

  @Column('boolean', { name: 'read_only' })
  readOnly: boolean;

  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;

  @Column('timestamptz', { name: 'last_used_at', nullable: true })
  lastUsedAt: Date | null;

  @Column('timestamptz', { name: 'revoked_at', nullable: true })
  revokedAt: Date | null;
}

/** Mailed to a person to choose a password by, once. */
@Entity('password_links')
export class PasswordLink extends OfUser {
  @Column('text')
  reason: 'invitation' | 'reset';

  /** Null until the worker has made the link. */
  @Column('bytea', { name: 'link_hash', nullable: true })
  linkHash: Buffer | null;

  @Column('text', { name: 'message_id', nullable: true })
  messageId: string | null;

  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;

  @Column('timestamptz', { name: 'sent_at', nullable: true })
  sentAt: Date | null;

  @Column('timestamptz', { name: 'used_at', nullable: true })
  usedAt: Date | null;
}

@Entity('sign_in_attempts')
export class SignInAttempt extends RecordedRow {
  /** SHA-256 of the address signed in with: what is typed there by mistake may be a password. */
  @Column('bytea', { name: 'account_hash' })
  accountHash: Buffer;

  @Column('text', { name: 'from_address' })
  fromAddress: string;

  @Column('text', { default: 'failed' })
  result: 'failed' | 'succeeded' | 'held_off';
}
