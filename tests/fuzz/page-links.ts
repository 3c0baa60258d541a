import { dataOf } from '@studio/api-client';
import { newSecret, secretHash, tenantToken } from '@studio/database';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { askFirstFollowUp } from '../helpers/follow-up.js';
import { openIntake } from '../helpers/intake.js';
import { screen, signedSession, takeOnClient } from '../helpers/rider.js';
import type { TestApi, TestStudio } from '../helpers/studio.js';

/** A link of every kind, by what its pages' addresses begin with; some lead to nothing any more. */
export async function makeEveryLink(api: TestApi, here: TestStudio): Promise<ReadonlyMap<string, string>> {
  const { studioId } = here.studio;
  const { owner, desk, serviceId, roomId } = here;
  const client = await takeOnClient(owner);
  const { clientId } = client;
  await screen(owner, clientId);
  await signedSession(owner, client);
  const fitterId = owner.signedIn.id;
  const startsAt = '2090-03-02T09:00:00Z';
  const visit = await dataOf(
    desk.POST('/v1/appointments', { body: { clientId, serviceId, roomId, fitterId, startsAt } }),
  );
  const wish = await dataOf(
    desk.POST('/v1/waiting-list', {
      body: { clientId, serviceId, firstDay: '2090-03-02', lastDay: '2090-03-03' },
    }),
  );
  const feed = await dataOf(owner.POST('/v1/calendar-feeds', { body: { roomId } }));

  const admin = new pg.Client({ connectionString: api.database.adminUrl });
  await admin.connect();
  const linked = async (statement: string, values: readonly string[]): Promise<string> => {
    const secret = newSecret();
    const { rows } = await admin.query<{ id: string }>(statement, [studioId, secretHash(secret), ...values]);
    return tenantToken({ studioId, id: rows[0]?.id ?? '', secret });
  };
  try {
    return new Map([
      ['intake', tail(await openIntake(desk, clientId))],
      ['follow-up', tail(await askFirstFollowUp(api, here, clientId))],
      ['calendars', tail(new URL(feed.address).pathname)],
      [
        'offers',
        await linked(
          `INSERT INTO slot_offers (studio_id, link_hash, wish_id, appointment_id, starts_at, expires_at)
           VALUES ($1, $2, $3, $4, $5, now() + interval '1 day') RETURNING id`,
          [wish.id, visit.id, startsAt],
        ),
      ],
      [
        'unsubscribe',
        await linked(
          `INSERT INTO messages (studio_id, unsubscribe_hash, client_id, template, language, state, sent_at)
           VALUES ($1, $2, $3, 'reminder_two_days', 'en', 'sent', now()) RETURNING id`,
          [clientId],
        ),
      ],
      [
        'choose-password',
        await linked(
          `INSERT INTO password_links (studio_id, link_hash, user_id, reason, expires_at)
           VALUES ($1, $2, $3, 'invitation', now() + interval '1 day') RETURNING id`,
          [fitterId],
        ),
      ],
      ...['exports', 'fit-sheets'].map(
        (kind) => [kind, tenantToken({ studioId, id: randomUUID(), secret: newSecret() })] as const,
      ),
    ]);
  } finally {
    await admin.end();
  }
}

const tail = (address: string): string => address.split('/').at(-1) ?? '';
