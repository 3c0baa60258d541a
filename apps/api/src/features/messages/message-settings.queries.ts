import { MessageSettings, type SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { MessageSettingsResponse } from './message-settings.dto.js';

/** The studio's settings, or the ones a studio begins with. */
export async function findSettings(sql: SqlRunner, studioId: string): Promise<MessageSettingsResponse> {
  const [settings] = await sql.query<[MessageSettingsResponse]>(
    `SELECT s.sender_name AS "senderName", coalesce(s.language, 'en') AS language,
            CASE WHEN s.quiet_from IS NOT NULL THEN json_build_object(
              'from', to_char(s.quiet_from, 'HH24:MI'), 'until', to_char(s.quiet_until, 'HH24:MI')) END AS "quietHours",
            coalesce(s.announce_appointments, true) AS "announceAppointments",
            coalesce(s.remind_two_days, true) AS "remindTwoDays",
            coalesce(s.remind_two_hours, true) AS "remindTwoHours",
            coalesce(s.attach_invitations, true) AS "attachInvitations",
            coalesce(s.calendar_names, 'initials') AS "calendarNames", coalesce(s.version, 1) AS version
       FROM (SELECT) AS one LEFT JOIN message_settings s ON s.studio_id = $1`,
    [studioId],
  );
  return settings;
}

/** Changes them while they have the version the change was made from; tells whether it did. */
export async function updateSettings(
  tx: EntityManager,
  { studioId, version }: { studioId: string; version: number },
  fields: Partial<Omit<MessageSettings, 'studioId' | 'id' | 'version' | 'createdAt'>>,
): Promise<boolean> {
  await tx.query(
    `INSERT INTO message_settings (studio_id) VALUES ($1) ON CONFLICT ON CONSTRAINT message_settings_one DO NOTHING`,
    [studioId],
  );
  const { affected } = await tx.update(
    MessageSettings,
    { studioId, version },
    { ...fields, version: version + 1 },
  );
  return affected === 1;
}
