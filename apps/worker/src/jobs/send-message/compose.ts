import { secretHash, tenantToken } from '@studio/database';
import { chooseText, languageFor, messageTemplates, render, type OwnText } from '@studio/messages';
import { createHmac } from 'node:crypto';
import type { Mail } from '../../mailer.js';
import type { MessageToSend } from './send-message.queries.js';
import type { MessageKey, Prepared } from './subjects/subject.js';

export interface Composed {
  readonly mail: Mail;
  /** What is kept of it with the message. */
  readonly record: {
    readonly language: ReturnType<typeof languageFor>;
    readonly textVersion: string;
    readonly subject: string;
    readonly body: string;
    readonly unsubscribeHash: Buffer | null;
  };
}

/** The mail in the words and the language that are in force now. */
export function compose(
  key: MessageKey,
  message: MessageToSend,
  options: {
    messageId: string;
    prepared: Prepared;
    own: readonly OwnText[];
    publicUrl: string;
    linkSecret: string;
  },
): Composed {
  const { messageId, prepared, own, publicUrl } = options;
  const { givenName, familyName, studioName, email } = message;
  const template = messageTemplates[message.template];
  const chosen = chooseText(template, languageFor(message.language, message.studioLanguage), own);
  const unsubscribe = template.unasked && message.clientId !== null ? unsubscribeSecret(key, options) : null;
  const unsubscribeUrl = unsubscribe?.url(publicUrl);
  const { subject, text, html, kept } = render(template, chosen, {
    values: { ...message.data, ...prepared.values, givenName, familyName, studioName },
    timeZone: prepared.timeZone ?? message.timeZone,
    unsubscribeUrl,
  });
  const { calendar } = prepared;
  const { language, textVersion } = chosen;
  return {
    mail: { messageId, to: email ?? '', fromName: studioName, subject, text, html, unsubscribeUrl, calendar },
    record: { language, textVersion, subject, body: kept, unsubscribeHash: unsubscribe?.hash ?? null },
  };
}

/** The same in every try of one message, so that none of its addresses stops working. */
function unsubscribeSecret({ studioId, id }: MessageKey, { linkSecret }: { linkSecret: string }) {
  const secret = createHmac('sha256', linkSecret).update(`unsubscribe/${studioId}/${id}`).digest('base64url');
  return {
    hash: secretHash(secret),
    url: (publicUrl: string) => `${publicUrl}/unsubscribe/${tenantToken({ studioId, id, secret })}`,
  };
}
