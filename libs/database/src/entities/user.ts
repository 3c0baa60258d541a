import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

export const roles = ['owner', 'fitter', 'front_desk'] as const;
export type Role = (typeof roles)[number];

@Entity('users')
export class User extends RecordedRow {
  /** Lower case. */
  @Column('text')
  email: string;

  @Column('text', { name: 'display_name' })
  displayName: string;

  /** Argon2id, PHC string; null until somebody invited has chosen a password. */
  @Column('text', { name: 'password_hash', nullable: true })
  passwordHash: string | null;

  @Column('text', { array: true })
  roles: Role[];

  /** What a service may ask of its fitter. */
  @Column('text', { array: true, default: () => "'{}'" })
  skills: string[];

  @Column('integer', { default: 1 })
  version: number;

  @Column('timestamptz', { name: 'disabled_at', nullable: true })
  disabledAt: Date | null;
}
