import { createServer } from 'node:http';
import { json } from 'node:stream/consumers';

/**
 * Does, at API_HOST_PORT, what a path stands for, with the JSON it is sent, and answers in JSON.
 *
 * @param {Readonly<Record<string, (body: never) => Promise<object>>>} answers
 */
export function answerOnPort(answers) {
  createServer((request, response) => {
    const answer = async () => {
      const work = answers[request.url ?? ''];
      if (!work) throw new Error(`nothing is done for ${request.url ?? ''}`);
      return JSON.stringify(await work(/** @type {never} */ (await json(request))));
    };
    answer().then(
      (text) => response.end(text),
      (/** @type {unknown} */ error) => response.writeHead(500).end(String(error)),
    );
  }).listen(Number(process.env['API_HOST_PORT']), '127.0.0.1');
}
