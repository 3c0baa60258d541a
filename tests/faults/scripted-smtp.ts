import { once } from 'node:events';
import type { AddressInfo, Socket } from 'node:net';
import { text } from 'node:stream/consumers';
import { SMTPServer } from 'smtp-server';

/** How the server treats one connection, or one mail. */
export type Manner = 'take' | 'refuse' | 'stall' | 'drop';

/** A mail that arrived whole. */
export interface Reception {
  readonly address: string;
  readonly messageId: string;
  /** The sender was told that it was taken. */
  answered: boolean;
  /** The sender cannot know, or could not write down, that it was taken: it may come again. */
  inDoubt: boolean;
}

export interface ScriptedSmtp {
  readonly url: string;
  readonly receptions: Reception[];
  /** Connections and mails treated otherwise than well, so far. */
  readonly mistreated: Record<Exclude<Manner, 'take'>, number>;
  close: () => Promise<void>;
}

const takes = (): Manner => 'take';

/**
 * A mail server on loopback that takes, refuses for now (421, 451), stalls or drops as it is told: `connection` decides
 * of the n-th connection before the greeting, `mail` of the n-th mail (refused at its recipient, stalled or dropped
 * after its data).
 */
export async function startScriptedSmtp(options: {
  latencyMs: number;
  connection?: (n: number) => Manner;
  mail?: (n: number) => Manner;
}): Promise<ScriptedSmtp> {
  const { latencyMs, connection = takes, mail = takes } = options;
  const receptions: Reception[] = [];
  const mistreated = { refuse: 0, stall: 0, drop: 0 };
  const counts = { connections: 0, mails: 0 };
  const mannerOf = new Map<string, Manner>();
  const count = (manner: Manner): Manner => {
    if (manner !== 'take') mistreated[manner] += 1;
    return manner;
  };

  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS', 'AUTH'],
    onConnect(session, done) {
      const manner = count(connection((counts.connections += 1)));
      if (manner === 'refuse') done(Object.assign(new Error('busy'), { responseCode: 421 }));
      else if (manner === 'drop') socketOf(session.id)?.destroy();
      else if (manner === 'take') done();
    },
    onRcptTo(_address, session, done) {
      const manner = count(mail((counts.mails += 1)));
      mannerOf.set(session.id, manner);
      done(manner === 'refuse' ? Object.assign(new Error('later'), { responseCode: 451 }) : null);
    },
    onData(stream, session, done) {
      void text(stream).then((source) => {
        const manner = mannerOf.get(session.id) ?? 'take';
        const reception: Reception = {
          address: session.envelope.rcptTo[0]?.address ?? '',
          messageId: /^Message-ID: (.+)$/im.exec(source)?.[1]?.trim() ?? '',
          answered: false,
          inDoubt: manner !== 'take',
        };
        receptions.push(reception);
        if (manner === 'drop') socketOf(session.id)?.destroy();
        if (manner !== 'take') return;
        setTimeout(() => {
          reception.answered = true;
          done();
        }, latencyMs);
      }, done);
    },
  });
  // The library has no other way to a session's socket.
  const connections = (server as unknown as { connections: Set<{ id: string; _socket: Socket }> })
    .connections;
  const socketOf = (id: string): Socket | undefined => [...connections].find((one) => one.id === id)?._socket;
  server.on('error', () => undefined);
  server.listen(0, '127.0.0.1');
  await once(server.server, 'listening');
  return {
    url: `smtp://127.0.0.1:${(server.server.address() as AddressInfo).port}`,
    receptions,
    mistreated,
    close: () =>
      new Promise((resolve) => {
        for (const { _socket } of connections) _socket.destroy();
        server.close(resolve);
      }),
  };
}
