import http from 'node:http';

// Enough that a request waits for the server, not for a socket of ours.
const agent = new http.Agent({ keepAlive: true, maxSockets: 1024 });

/**
 * @param {string} url
 * @param {{ headers?: Record<string, string>, body?: object, expected?: number }} [options] `expected`: status, 200 if absent
 * @returns {Promise<boolean>} whether it was answered with that status
 */
export function ask(url, { headers = {}, body, expected = 200 } = {}) {
  return new Promise((resolve, reject) => {
    const text = body && JSON.stringify(body);
    const request = http.request(
      url,
      {
        agent,
        method: text === undefined ? 'GET' : 'POST',
        headers: { ...headers, ...(text !== undefined && { 'content-type': 'application/json' }) },
      },
      (response) => {
        response.resume();
        response.once('end', () => {
          resolve(response.statusCode === expected);
        });
        response.once('error', reject);
      },
    );
    request.once('error', reject);
    request.end(text);
  });
}
