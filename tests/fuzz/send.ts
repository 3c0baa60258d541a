import { Agent, request } from 'node:http';
import { connect } from 'node:net';

export interface HostileRequest {
  readonly method: string;
  /** Path and query as they go over the wire. */
  readonly target: string;
  /** Names may come twice. */
  readonly headers: readonly (readonly [name: string, value: string])[];
  readonly body: string | null;
}

export interface Answer {
  readonly status: number;
  readonly mediaType: string;
  readonly text: string;
}

export const connections = new Agent({ keepAlive: true, maxSockets: 4 });

/** As it stands: nothing is corrected on the way. */
export function send(baseUrl: string, { method, target, headers, body }: HostileRequest): Promise<Answer> {
  const { hostname, port } = new URL(baseUrl);
  const bytes = body === null ? null : Buffer.from(body);
  const sent = [
    ['host', `${hostname}:${port}`] as const,
    ...headers,
    ...(bytes === null ? [] : [['content-length', String(bytes.length)] as const]),
  ];
  return new Promise((resolve, reject) => {
    const outgoing = request(
      { hostname, port, method, path: target, headers: sent.flat(), agent: connections },
      (response) => {
        const chunks: Buffer[] = [];
        response.on('data', (chunk: Buffer) => chunks.push(chunk));
        response.on('error', reject);
        response.on('end', () => {
          resolve({
            status: response.statusCode ?? 0,
            mediaType: (response.headers['content-type'] ?? '').split(';')[0] ?? '',
            text: Buffer.concat(chunks).toString(),
          });
        });
      },
    );
    outgoing.on('error', reject);
    outgoing.end(bytes ?? undefined);
  });
}

/** On a connection of its own, until the server ends it. */
export function sendBytes(baseUrl: string, bytes: string): Promise<Answer> {
  const { hostname, port } = new URL(baseUrl);
  return new Promise((resolve, reject) => {
    const socket = connect(Number(port), hostname, () => socket.write(bytes, 'latin1'));
    let answer = '';
    socket.on('data', (chunk) => (answer += chunk.toString()));
    socket.on('error', reject);
    socket.on('end', () => {
      const [head = '', text = ''] = answer.split('\r\n\r\n');
      resolve({
        status: Number(/^HTTP\/1\.1 (\d+)/.exec(head)?.[1] ?? 0),
        mediaType: /content-type: ([^;\r]*)/i.exec(head)?.[1] ?? '',
        text,
      });
    });
  });
}
