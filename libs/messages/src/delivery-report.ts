import { isAddressFault } from './smtp-answer.js';

export const reportActions = ['failed', 'delayed', 'delivered', 'relayed', 'expanded'] as const;
export type ReportAction = (typeof reportActions)[number];

export interface RecipientReport {
  readonly finalRecipient: string | null;
  readonly action: ReportAction;
  /** `5.1.1` (RFC 3463). */
  readonly status: string;
}

export interface DeliveryReport {
  /** As the sender named the mail to the server (RFC 3461, 4.4); null where the server did not keep it. */
  readonly originalEnvelopeId: string | null;
  readonly recipients: readonly RecipientReport[];
}

/** The fields of a block by lower-case name, unfolded; of a field that comes twice the first. */
function fieldsOf(block: string): ReadonlyMap<string, string> {
  const fields = new Map<string, string>();
  for (const line of block.replaceAll(/\n[ \t]+/g, ' ').split('\n')) {
    const [, name, value] = /^([!-9;-~]+)[ \t]*:[ \t]*(.*)$/.exec(line) ?? [];
    if (name === undefined || value === undefined || fields.has(name.toLowerCase())) continue;
    fields.set(name.toLowerCase(), withoutComments(value).trim());
  }
  return fields;
}

/** Comments in parentheses may stand in any field (RFC 3464, 2.1.1). */
function withoutComments(value: string): string {
  let bare = value;
  let before: string;
  do {
    before = bare;
    bare = bare.replace(/\([^()]*\)/g, '');
  } while (bare !== before);
  return bare;
}

/**
 * A `message/delivery-status` part: a block about the mail, then one for each recipient. A block without action or
 * status, which must be there, is left out.
 *
 * @source RFC 3464, 2.1 to 2.3
 */
export function readDeliveryReport(part: string): DeliveryReport {
  const blocks = part
    .replaceAll('\r\n', '\n')
    .split(/\n[ \t]*\n/)
    .map((block) => block.trim())
    .filter((block) => block !== '')
    .map(fieldsOf);
  const [ofMail, ...ofRecipients] = blocks;
  return {
    originalEnvelopeId: ofMail?.get('original-envelope-id') ?? null,
    recipients: ofRecipients.flatMap((fields) => {
      const action = reportActions.find((one) => one === fields.get('action')?.toLowerCase());
      const status = /^[245]\.\d{1,3}\.\d{1,3}/.exec(fields.get('status') ?? '')?.[0];
      if (action === undefined || status === undefined) return [];
      return [{ action, status, finalRecipient: addressOf(fields.get('final-recipient')) }];
    }),
  };
}

/** `rfc822;louisl@larry.slip.umd.edu`: the kind of address, then the address. */
const addressOf = (recipient: string | undefined): string | null =>
  /^rfc822[ \t]*;[ \t]*(?<address>\S+)$/i.exec(recipient ?? '')?.groups?.['address'] ?? null;

/** The Message-ID among the header lines of a returned mail, without its brackets. */
export function returnedMessageId(headers: string): string | null {
  const [head = ''] = headers.replaceAll('\r\n', '\n').split('\n\n');
  return /^<(?<id>[^<>\s]+)>$/.exec(fieldsOf(head).get('message-id') ?? '')?.groups?.['id'] ?? null;
}

/** What a report on one recipient means for the message and for the address. */
export function judgeReport({ action, status }: RecipientReport): {
  outcome: 'failed' | 'delayed' | 'delivered';
  addressDead: boolean;
} {
  if (action === 'failed') return { outcome: 'failed', addressDead: isAddressFault(status) };
  return { outcome: action === 'delayed' ? 'delayed' : 'delivered', addressDead: false };
}
