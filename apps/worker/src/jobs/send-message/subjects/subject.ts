import type { Write } from '@studio/database';
import type { MessageTemplateName } from '@studio/job-contracts';
import type { EntityManager } from 'typeorm';
import type { Mail } from '../../../mailer.js';

export interface MessageKey {
  readonly studioId: string;
  readonly id: string;
}

/** What a message is about, as it is ordered. */
export interface About extends MessageKey {
  readonly template: MessageTemplateName;
  readonly clientId: string | null;
  readonly subjectId: string;
  /** Fixed already: it goes into what is stored with the record. */
  readonly messageId: string;
}

export interface Prepared {
  readonly values: Readonly<Record<string, string>>;
  /** Of the place it is about, where that is not the studio's. */
  readonly timeZone?: string;
  readonly calendar?: Mail['calendar'];
}

/** Reads the record a message is about, at the moment it goes out; so it tells what is so then. */
export interface Subject {
  /** @returns null when the message is not wanted any more */
  prepare(tx: EntityManager, about: About): Promise<Prepared | null>;
  /** Written in the transaction that writes down that it was sent. */
  sent?(about: Omit<About, 'messageId'>): Write;
}
