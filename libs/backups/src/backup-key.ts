import { generateX25519Identity, identityToRecipient } from 'age-encryption';

/** A new pair of age's keys: `recipient` makes backups, and only `identity` opens them. */
export async function newBackupKey(): Promise<{ identity: string; recipient: string }> {
  const identity = await generateX25519Identity();
  return { identity, recipient: await identityToRecipient(identity) };
}
