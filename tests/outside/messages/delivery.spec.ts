import { describe, expect, it } from '@jest/globals';
import {
  isAddressFault,
  judgeReport,
  judgeSmtpFailure,
  readDeliveryReport,
  returnedMessageId,
} from '@studio/messages';

describe('RFC 3464, appendix E', () => {
  it('E.1: a simple report', () => {
    const { recipients, originalEnvelopeId } = readDeliveryReport(`Reporting-MTA: dns; cs.utk.edu

Original-Recipient: rfc822;louisl@larry.slip.umd.edu
Final-Recipient: rfc822;louisl@larry.slip.umd.edu
Action: failed
Status: 4.0.0
Diagnostic-Code: smtp; 426 connection timed out
Last-Attempt-Date: Thu, 7 Jul 1994 17:15:49 -0400
`);
    expect(originalEnvelopeId).toBeNull();
    expect(recipients).toEqual([
      { action: 'failed', status: '4.0.0', finalRecipient: 'louisl@larry.slip.umd.edu' },
    ]);
    // It was not delivered, but nothing says that the address is wrong.
    expect(recipients.map(judgeReport)).toEqual([{ outcome: 'failed', addressDead: false }]);
  });

  it('E.2: several recipients, one of them delivered to, with comments and folded lines', () => {
    const { recipients } = readDeliveryReport(`Reporting-MTA: dns; cs.utk.edu

Original-Recipient: rfc822;arathib@vnet.ibm.com
Final-Recipient: rfc822;arathib@vnet.ibm.com
Action: failed
Status: 5.0.0 (permanent failure)
Diagnostic-Code: smtp;
 550 'arathib@vnet.IBM.COM' is not a registered gateway user
Remote-MTA: dns; vnet.ibm.com

Original-Recipient: rfc822;johnh@hpnjld.njd.hp.com
Final-Recipient: rfc822;johnh@hpnjld.njd.hp.com
Action: delayed
Status: 4.0.0 (hpnjld.njd.jp.com: host name lookup failure)

Original-Recipient: rfc822;wsnell@sdcc13.ucsd.edu
Final-Recipient: rfc822;wsnell@sdcc13.ucsd.edu
Action: failed
Status: 5.0.0
Diagnostic-Code: smtp; 550 user unknown
Remote-MTA: dns; sdcc13.ucsd.edu
`);
    expect(recipients.map(({ action, status }) => [action, status])).toEqual([
      ['failed', '5.0.0'],
      ['delayed', '4.0.0'],
      ['failed', '5.0.0'],
    ]);
    expect(recipients.map((one) => judgeReport(one).outcome)).toEqual(['failed', 'delayed', 'failed']);
    expect(recipients.map((one) => judgeReport(one).addressDead)).toEqual([true, false, true]);
  });

  it('E.5: a delay is no failure', () => {
    const { recipients } = readDeliveryReport(`Reporting-MTA: dns; sun2.nsfnet-relay.ac.uk

Final-Recipient: rfc822;thomas@de-montfort.ac.uk
Status: 4.0.0 (unknown temporary failure)
Action: delayed
`);
    expect(recipients.map(judgeReport)).toEqual([{ outcome: 'delayed', addressDead: false }]);
  });

  it('2.2.1 and 2.1.1: names of fields in any case, an envelope id, and a block without status left out', () => {
    const report = readDeliveryReport(
      'REPORTING-MTA: dns; a.example\r\noriginal-envelope-id: 0199.ab@fitting.example\r\n\r\nFINAL-RECIPIENT: RFC822; x@y.example\r\nACTION: Failed\r\nSTATUS: 5.1.1\r\n\r\nAction: failed\r\n',
    );
    expect(report).toEqual({
      originalEnvelopeId: '0199.ab@fitting.example',
      recipients: [{ action: 'failed', status: '5.1.1', finalRecipient: 'x@y.example' }],
    });
  });

  it('RFC 5322, 2.2.3 and 3.6.4: the returned Message-ID, also on a folded line, and only of the header', () => {
    expect(returnedMessageId('Subject: x\r\nMessage-ID:\r\n <1234@local.machine.example>\r\n\r\nbody')).toBe(
      '1234@local.machine.example',
    );
    expect(returnedMessageId('Subject: x\n\nMessage-ID: <a@b>')).toBeNull();
  });
});

describe('RFC 5321, 4.2.3: the answers of a server', () => {
  const at = (responseCode: number, command: string, response = String(responseCode)) =>
    judgeSmtpFailure({ responseCode, command, response });

  it.each([
    [421, 'CONN'],
    [450, 'RCPT TO'],
    [451, 'DATA'],
    [452, 'RCPT TO'],
    [455, 'MAIL FROM'],
  ])('%i after %s: the command may succeed when it comes again', (code, command) => {
    expect(at(code, command)).toMatchObject({ again: true, addressDead: false });
  });

  it.each([
    [550, true],
    [551, true],
    [553, true],
    [552, false],
    [554, false],
  ])('%i after RCPT TO: never; the address is at fault: %s', (code, addressDead) => {
    expect(at(code, 'RCPT TO')).toMatchObject({ again: false, addressDead });
  });

  it('554 after DATA ends the mail and blames no address', () => {
    expect(at(554, 'DATA')).toMatchObject({ again: false, addressDead: false });
  });

  it.each([
    [554, 'CONN'],
    [535, 'AUTH PLAIN'],
    [530, 'MAIL FROM'],
    [550, 'MAIL FROM'],
    [502, 'EHLO'],
  ])('%i after %s is about us, not about the mail: somebody will put it right', (code, command) => {
    expect(at(code, command)).toMatchObject({ again: true, addressDead: false });
  });

  it.each(['ECONNECTION', 'ETIMEDOUT', 'ESOCKET', 'EDNS', 'ETLS'])('%s: no server answered', (code) => {
    expect(judgeSmtpFailure({ code })).toEqual({ again: true, addressDead: false, reason: `SMTP ${code}` });
  });

  it('RFC 2034: the enhanced code decides, and the server’s words are not passed on', () => {
    const full = at(552, 'RCPT TO', '552 5.2.2 <a@b.example> mailbox full');
    expect(full).toEqual({ again: false, addressDead: false, reason: 'SMTP 552 5.2.2' });
    const unknown = at(550, 'RCPT TO', '550 5.1.1 <a@b.example> no such user');
    expect(unknown).toEqual({ again: false, addressDead: true, reason: 'SMTP 550 5.1.1' });
    expect(at(550, 'RCPT TO', '550 5.7.1 relaying denied')).toMatchObject({ addressDead: false });
  });
});

describe('RFC 3463, 3: which status blames the address', () => {
  it.each(['5.1.0', '5.1.1', '5.1.2', '5.1.3', '5.1.6', '5.1.10', '5.2.1', '5.0.0'])('%s does', (status) => {
    expect(isAddressFault(status)).toBe(true);
  });
  // 5.1.7 and 5.1.8 are about the sender’s address.
  it.each([
    '5.1.7',
    '5.1.8',
    '5.2.2',
    '5.2.3',
    '5.3.4',
    '5.4.4',
    '5.5.0',
    '5.6.1',
    '5.7.1',
    '4.1.1',
    '2.0.0',
  ])('%s does not', (status) => {
    expect(isAddressFault(status)).toBe(false);
  });
});
