import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { createTransport } from 'nodemailer';
import { serveMailCatcher } from '../../scripts/services/mail-catcher.mjs';
import { freePort } from '../../scripts/services/ports.mjs';

describe('mail catcher', () => {
  let folder: string;
  let web: string;
  let catcher: { close: () => Promise<void> };
  let transport: ReturnType<typeof createTransport>;

  beforeEach(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'studio-mail-'));
    const [smtpPort, httpPort] = [await freePort(), await freePort()];
    web = `http://127.0.0.1:${httpPort}`;
    catcher = await serveMailCatcher({ host: '127.0.0.1', smtpPort, httpPort, folder });
    transport = createTransport({ host: '127.0.0.1', port: smtpPort });
  });
  afterEach(async () => {
    transport.close();
    await catcher.close();
    rmSync(folder, { recursive: true });
  });

  async function messages(): Promise<unknown> {
    return (await fetch(`${web}/messages`)).json();
  }

  it('shows what came over SMTP as JSON, and keeps it as it came', async () => {
    await transport.sendMail({
      from: 'Studio Höhenweg <studio@fitting.example>',
      to: 'ada@client.example',
      bcc: 'copy@client.example',
      subject: 'Wie läuft’s? – nach zwei Wochen',
      text: 'Grüße\nhttps://studio.example/f/abc',
      html: '<p>Grüße</p>',
      headers: { 'X-Follow-Up': 'two-weeks' },
      attachments: [{ filename: 'visit.ics', content: 'BEGIN:VCALENDAR' }],
    });
    expect(await messages()).toEqual([
      expect.objectContaining({
        from: '"Studio Höhenweg" <studio@fitting.example>',
        // Of the envelope: who gets it, not who is shown.
        to: ['ada@client.example', 'copy@client.example'],
        subject: 'Wie läuft’s? – nach zwei Wochen',
        text: 'Grüße\nhttps://studio.example/f/abc',
        html: '<p>Grüße</p>',
        attachments: ['visit.ics'],
        headers: expect.objectContaining({ 'x-follow-up': 'two-weeks' }),
      }),
    ]);
    const [file = ''] = readdirSync(folder);
    expect(readFileSync(path.join(folder, file), 'utf8')).toContain('X-Follow-Up: two-weeks');
  });

  it('shows the newest first on a page, and nothing of a mail as markup but links to the web', async () => {
    const text = 'see https://studio.example/f/abc?x=1 and javascript:alert(1)';
    await transport.sendMail({ from: 'a@b.example', to: 'c@d.example', subject: 'older', text });
    await transport.sendMail({
      from: 'a@b.example',
      to: 'c@d.example',
      subject: '<script>alert(1)</script>',
      text: '"\'&',
    });
    const page = await (await fetch(`${web}/`)).text();
    expect(page).not.toContain('<script');
    expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    expect(page).toContain('<a href="https://studio.example/f/abc?x=1">');
    expect(page).not.toContain('href="javascript');
    expect(page.indexOf('&lt;script')).toBeLessThan(page.indexOf('older'));
  });

  it('forgets on DELETE', async () => {
    await transport.sendMail({ from: 'a@b.example', to: 'c@d.example', subject: 's', text: 't' });
    expect((await fetch(`${web}/messages`, { method: 'DELETE' })).status).toBe(204);
    expect(await messages()).toEqual([]);
    expect((await fetch(`${web}/elsewhere`)).status).toBe(404);
  });
});
