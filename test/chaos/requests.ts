import { request } from 'node:http';

/** A request by a connection of its own: one that is used again may be closed at that very moment, and is then nobody's fault. */
export function post(
  port: number,
  path: string,
  headers: Readonly<Record<string, string>>,
  body: string,
): Promise<{ readonly status: number; readonly text: string } | null> {
  return new Promise((resolve) => {
    const asking = request({ host: '127.0.0.1', port, path, method: 'POST', headers, agent: false }, (response) => {
      let text = '';
      response.setEncoding('utf8').on('data', (part: string) => {
        text += part;
      });
      response.on('end', () => resolve({ status: response.statusCode ?? 0, text }));
      response.on('error', () => resolve(null));
      response.on('close', () => resolve(null));
    });
    asking.on('error', () => resolve(null));
    asking.end(body);
  });
}
