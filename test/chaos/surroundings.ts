import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Where } from '../../src/records/where.ts';
import { openCuttingProxy } from '../support/cutting-proxy.ts';
import { openDouble as openDiscord } from '../support/discord-double.ts';
import { startPostgres } from '../support/postgres.ts';
import { openDouble as openSlack } from '../support/slack-double.ts';
import { openTroubledProxy } from '../support/troubled-proxy.ts';
import { HEARTBEAT_MS, type Stage } from './breakages.ts';

/** What programs find around them: the platforms and the storage, each by way of somebody who can break it. */
export type Surroundings = Pick<Stage, 'discord' | 'slack' | 'storage'> & {
  /** Where the records are, by the straight way. */
  readonly where: Where;
  /** The settings by which programs find them, by the way that breaks. */
  readonly settings: Readonly<Record<string, string>>;
};

/** Opens all of it; whoever opened `opened` closes it. */
export async function openSurroundings(
  engine: Stage['storage']['kind'],
  opened: AsyncDisposableStack,
): Promise<Surroundings> {
  const discordDouble = opened.adopt(await openDiscord({ heartbeatMs: HEARTBEAT_MS }), (each) => each.close());
  const slackDouble = opened.adopt(await openSlack(), (each) => each.close());
  const platforms = {
    discord: {
      double: discordDouble,
      proxy: opened.adopt(await openTroubledProxy(discordDouble.api), (each) => each.close()),
    },
    slack: {
      double: slackDouble,
      proxy: opened.adopt(await openTroubledProxy(slackDouble.base), (each) => each.close()),
    },
  };
  if (engine === 'SQLite') {
    const folder = mkdtempSync(join(tmpdir(), 'ringwright-chaos-'));
    opened.defer(() => rmSync(folder, { recursive: true, force: true }));
    const path = join(folder, 'records.db');
    return {
      ...platforms,
      storage: { kind: 'SQLite', path },
      where: { path },
      settings: { RINGWRIGHT_DATA: folder },
    };
  }
  const server = opened.adopt(await startPostgres(), (each) => each.end());
  const url = await server.database();
  const proxy = opened.adopt(await openCuttingProxy(url), (each) => each.close());
  return {
    ...platforms,
    storage: { kind: 'PostgreSQL', server, proxy },
    where: { url },
    settings: { DATABASE_URL: proxy.through(url) },
  };
}
