import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { describe, expect, it } from 'vitest';
import { healthCommand, imageFaults, stagesOf } from './dockerfile-rules.ts';
import { fileText } from './repository.ts';

const TEXT = fileText('deploy/Dockerfile');
const IGNORED = fileText('deploy/Dockerfile.dockerignore');

/** The exit code of the health check, asked of a program that answers with a status; null: of none at all. */
async function asked(status: number | null): Promise<number | null> {
  const paths: string[] = [];
  const server = createServer((request, response) => {
    paths.push(request.url ?? '');
    response.writeHead(status ?? 500).end();
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  if (status === null) await new Promise((resolve) => server.close(resolve));
  const [, ...args] = healthCommand(TEXT) ?? [];
  const child = spawn(process.execPath, args, { env: { ...process.env, WATCH_PORT: String(port) }, stdio: 'ignore' });
  const [code] = (await once(child, 'exit')) as [number | null];
  if (status !== null) {
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
    expect(paths).toEqual(['/healthz']);
  }
  return code;
}

describe('the image', () => {
  it('keeps every rule', () => {
    expect(stagesOf(TEXT).stages.length).toBe(3);
    expect(imageFaults(TEXT, IGNORED)).toEqual([]);
  });

  it('asks a program for its health, and believes only a yes', async () => {
    expect(await asked(200)).toBe(0);
    expect(await asked(503)).toBe(1);
    expect(await asked(null)).toBe(1);
  });

  it.each([
    ['ARG NODE_DIGEST\n', 'ARG NODE_DIGEST=sha256:abc\n', 'no digest'],
    ['node:24-bookworm-slim\nARG', 'node:22-bookworm-slim\nARG', 'runtime it needs'],
    ['NODE_DIGEST} AS packages', 'NODE_VERSION} AS packages', 'starts from'],
    ['NODE_DIGEST}\nARG VERSION', 'NODE_VERSION}\nARG VERSION', 'starts from'],
    ['COPY LICENSE ./', 'COPY LICENCE ./', 'not there'],
    ['COPY LICENSE ./', 'COPY README.md ./', 'left out'],
    ['COPY src ./src', 'ADD src ./src', 'unpack'],
    ['--omit=dev ', '', '--omit=dev'],
    ['--ignore-scripts ', '', '--ignore-scripts'],
    ['npm ci', 'npm install', 'npm ci'],
    ['"selftest"', '"doctor"', 'not tried'],
    ["'discord/gateway'", "'discord/gate'", 'loads adapters/discord/gate.ts'],
    ['USER 10001:10001\nEXPOSE', 'USER root\nEXPOSE', 'root'],
    ['USER 10001:10001\nEXPOSE', 'USER node\nEXPOSE', 'without a number'],
    ['USER 10001:10001\nEXPOSE', 'EXPOSE', 'root'],
    ['COPY LICENSE ./', 'COPY LICENSE ./\nRUN chmod -R a+w /app', 'changes what'],
    ['COPY --from=tried /app', 'COPY --from=tried --chown=10001:10001 /app', 'change itself'],
    ['SLACK_HOST=', 'SLACK_HSOT=', 'reads SLACK_HSOT'],
    ['SLACK_HOST=', 'SLACK_BOT_TOKEN=x SLACK_HOST=', 'in the open'],
    ['CMD ["node", "adapters/discord/main.ts"]', 'CMD ["node", "adapters/discord/none.ts"]', 'no program'],
    ['CMD ["node", "adapters/discord/main.ts"]', 'CMD npm run discord', 'no program'],
    ['/healthz', '/', 'health'],
    ['HEALTHCHECK --interval=30s', '# HEALTHCHECK --interval=30s', 'health'],
    ['STOPSIGNAL SIGTERM', 'STOPSIGNAL SIGKILL', 'told to end'],
    ['EXPOSE 8080', 'EXPOSE 8081', 'ports'],
    ['WATCH_PORT=9464', 'WATCH_PORT=94640', 'WATCH_PORT'],
    ['org.opencontainers.image.licenses', 'org.opencontainers.image.license', 'licenses'],
  ])('is refused with %j turned into %j', (from, to, fault) => {
    expect(TEXT.split(from).length, from).toBeGreaterThan(1);
    expect(imageFaults(TEXT.replace(from, to), IGNORED).join('\n')).toContain(fault);
  });

  it('is refused where the checkout lies open to it', () => {
    expect(imageFaults(TEXT, IGNORED.replace('*\n', '')).join()).toContain('lies about');
    expect(imageFaults(TEXT, `${IGNORED}!data\n`).join()).toContain('lets in data');
  });
});
