/** What a mail library knows of a failed attempt: the server's code and words, and the step it came to. */
export interface SmtpFailure {
  /** The three digits of RFC 5321, 4.2; absent when the connection failed. */
  readonly responseCode?: number | undefined;
  /** The server's last line, which may begin with an enhanced code (RFC 3463, RFC 2034). */
  readonly response?: string | undefined;
  /** The SMTP command that was refused. */
  readonly command?: string | undefined;
  /** The library's own code, such as `ECONNECTION`. */
  readonly code?: string | undefined;
}

export interface SmtpVerdict {
  readonly again: boolean;
  /** The address itself is at fault: nothing more should be mailed to it. */
  readonly addressDead: boolean;
  /** Codes only: the server's own words can hold the address. */
  readonly reason: string;
}

/**
 * Try later, or never. A "never" (5yz) ends it only where it is about the recipient or the mail; refused sign-in,
 * greeting or sender say that something is wrong on our side, which somebody will put right.
 *
 * @source RFC 5321, 4.2.1 (first digit), 4.3.2 (which codes follow which command); RFC 3463, 2 and 3 (x.1.z: the address)
 */
export function judgeSmtpFailure({ responseCode, response, command, code }: SmtpFailure): SmtpVerdict {
  if (responseCode === undefined) {
    // The library found no address it could offer to a server.
    const unusable = code === 'EENVELOPE';
    return { again: !unusable, addressDead: unusable, reason: `SMTP ${code ?? 'failed'}` };
  }
  const enhanced = enhancedCode(response);
  const reason = `SMTP ${responseCode}${enhanced === null ? '' : ` ${enhanced}`}`;
  const ofThisMail = command === undefined || /^(RCPT TO|DATA)/.test(command);
  const never = responseCode >= 500 && ofThisMail;
  const atRecipient = command?.startsWith('RCPT TO') === true;
  return {
    again: !never,
    addressDead:
      never && (enhanced === null ? atRecipient && noMailbox(responseCode) : isAddressFault(enhanced)),
    reason,
  };
}

/** 550 "mailbox unavailable", 551 "user not local", 553 "mailbox name not allowed" (RFC 5321, 4.2.3). */
const noMailbox = (responseCode: number): boolean => [550, 551, 553].includes(responseCode);

function enhancedCode(response: string | undefined): string | null {
  return (
    /^\d{3}[ -](?<enhanced>[245]\.\d{1,3}\.\d{1,3})\b/.exec(response ?? '')?.groups?.['enhanced'] ?? null
  );
}

/**
 * A permanent status that blames the address: bad mailbox or system (5.1.z; 5.1.7 and 5.1.8 blame the sender's), a
 * mailbox that is closed (5.2.1), or nothing closer (5.0.0). A full mailbox, a refused size or a policy do not.
 *
 * @source RFC 3463, 3.2 and 3.3; IANA registry "SMTP Enhanced Status Codes"
 */
export function isAddressFault(status: string): boolean {
  return /^5\.(0\.0|1\.(?!7$|8$)\d{1,3}|2\.1)$/.test(status);
}
