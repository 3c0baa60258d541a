import { judgeReport, readDeliveryReport, returnedMessageId, type RecipientReport } from '@studio/messages';

export interface ReadReport {
  /** The message it is about, out of the id it was sent with. */
  readonly studioId: string;
  readonly messageId: string;
  readonly report: RecipientReport;
}

/** A report about a message of ours; null for any other mail. A message has one recipient, so the report has one. */
export async function readReport(raw: Buffer): Promise<ReadReport | null> {
  const { simpleParser } = await import('mailparser');
  const mail = await simpleParser(raw, {
    // Else it would be added to the text.
    keepDeliveryStatus: true,
    skipHtmlToText: true,
    skipTextToHtml: true,
    skipImageLinks: true,
    skipTextLinks: true,
  });
  const part = (...types: string[]): string | null =>
    mail.attachments.find(({ contentType }) => types.includes(contentType))?.content.toString('utf8') ?? null;
  const status = part('message/delivery-status');
  if (status === null) return null;
  const { originalEnvelopeId, recipients } = readDeliveryReport(status);
  const returned = part('message/rfc822', 'text/rfc822-headers');
  const ids = [originalEnvelopeId, returned === null ? null : returnedMessageId(returned)];
  const ours = ids.map(idsOf).find((found) => found !== null);
  const worst = recipients.find((one) => judgeReport(one).outcome === 'failed') ?? recipients[0];
  return ours && worst ? { ...ours, report: worst } : null;
}

/** `<message>.<studio>@domain`, as the worker makes it. */
function idsOf(id: string | null): { studioId: string; messageId: string } | null {
  const [, message, studio] = /^<?([0-9a-f]{32})\.([0-9a-f]{32})@/.exec(id ?? '') ?? [];
  if (message === undefined || studio === undefined) return null;
  return { studioId: withDashes(studio), messageId: withDashes(message) };
}

const withDashes = (hex: string): string =>
  hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
