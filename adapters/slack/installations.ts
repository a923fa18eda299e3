import { createCipheriv, createDecipheriv, hkdfSync, randomBytes } from 'node:crypto';
import type { Installation, InstallationQuery, InstallationStore } from '@slack/bolt';
import { z } from 'zod';
import { errorData, type Log } from '../../src/log.ts';
import type { Installations } from '../../src/records/installations.ts';
import { type Place, readPlace } from '../../src/records/place.ts';

/** What of an installation is kept: what answering needs, and nothing about who installed it. */
const Kept = z.object({
  team: z.object({ id: z.string(), name: z.string().optional() }).optional(),
  enterprise: z.object({ id: z.string(), name: z.string().optional() }).optional(),
  isEnterpriseInstall: z.boolean(),
  appId: z.string().optional(),
  bot: z.object({
    token: z.string(),
    id: z.string(),
    userId: z.string(),
    scopes: z.array(z.string()),
    refreshToken: z.string().optional(),
    expiresAt: z.number().optional(),
  }),
});

const CIPHER = 'aes-256-gcm';
const IV_BYTES = 12;
const TAG_BYTES = 16;

/** A key made from a secret that every process of this program shares, for one use only. */
export function keyFrom(secret: string, use: 'installations' | 'pictures'): Uint8Array {
  return new Uint8Array(hkdfSync('sha256', secret, '', `ringwright ${use}`, 32));
}

/** Seals a text so that who reads the records cannot read it, nor change it, nor move it to another place. */
function sealed(text: string, place: Place, key: Uint8Array): string {
  const iv = randomBytes(IV_BYTES);
  const cipher = createCipheriv(CIPHER, key, iv).setAAD(Buffer.from(place));
  const body = Buffer.concat([cipher.update(text, 'utf8'), cipher.final()]);
  return Buffer.concat([iv, cipher.getAuthTag(), body]).toString('base64');
}

/** The text that was sealed; null where it was sealed with another key, or changed. */
function unsealed(text: string, place: Place, key: Uint8Array): string | null {
  const bytes = Buffer.from(text, 'base64');
  try {
    const decipher = createDecipheriv(CIPHER, key, bytes.subarray(0, IV_BYTES), { authTagLength: TAG_BYTES })
      .setAAD(Buffer.from(place))
      .setAuthTag(bytes.subarray(IV_BYTES, IV_BYTES + TAG_BYTES));
    const body = bytes.subarray(IV_BYTES + TAG_BYTES);
    return Buffer.concat([decipher.update(body), decipher.final()]).toString('utf8');
  } catch {
    return null;
  }
}

/** The place of an installation: the workspace, or the organisation it is installed in as a whole. */
function placeOf(id: string | undefined): Place {
  const place = readPlace(`slack:${id ?? ''}`);
  if (id === undefined || id === '' || place === null) throw new TypeError('an installation without a workspace');
  return place;
}

/**
 * The installations of many workspaces, kept in the records. A workspace without one gets an installation without a
 * token: then its people are told so, where throwing would leave them without a word.
 */
export function openInstallations(
  installations: Installations,
  key: Uint8Array,
  nowMs: () => number,
  log: Log,
): InstallationStore & { readonly remove: (team: string) => Promise<void> } {
  const removed = async (place: Place) => {
    await installations.remove(place);
  };
  return {
    storeInstallation: async ({ team, enterprise, isEnterpriseInstall = false, appId, bot }) => {
      const place = placeOf(isEnterpriseInstall ? enterprise?.id : team?.id);
      const kept = Kept.parse({ team, enterprise, isEnterpriseInstall, appId, bot });
      await installations.keep(place, sealed(JSON.stringify(kept), place, key), nowMs());
      log.info({ place }, 'installed in a workspace');
    },
    fetchInstallation: async (query) => {
      try {
        return (await found(query, installations, key)) ?? without(query);
      } catch (error) {
        log.error(errorData(error), 'an installation could not be read');
        return without(query);
      }
    },
    deleteInstallation: ({ isEnterpriseInstall, enterpriseId, teamId }) =>
      removed(placeOf(isEnterpriseInstall ? enterpriseId : teamId)),
    remove: (team) => removed(placeOf(team)),
  };
}

type Query = InstallationQuery<boolean>;

/** The workspace's own installation, else that of its whole organisation. */
async function found(query: Query, installations: Installations, key: Uint8Array): Promise<Installation | null> {
  const { isEnterpriseInstall, enterpriseId, teamId } = query;
  for (const id of isEnterpriseInstall ? [enterpriseId] : [teamId, enterpriseId]) {
    if (id === undefined || id === '') continue;
    const place = placeOf(id);
    const text = await installations.read(place);
    const plain = text === null ? null : unsealed(text, place, key);
    if (plain === null) continue;
    const { team, enterprise, isEnterpriseInstall: whole, appId, bot } = Kept.parse(JSON.parse(plain));
    return {
      // Who installed it is not kept; the platform's library wants the field.
      user: { id: '', token: undefined, scopes: undefined },
      team: team === undefined ? undefined : stripped(team),
      enterprise: enterprise === undefined ? undefined : stripped(enterprise),
      isEnterpriseInstall: whole,
      authVersion: 'v2',
      tokenType: 'bot',
      ...(appId === undefined ? {} : { appId }),
      bot: {
        token: bot.token,
        id: bot.id,
        userId: bot.userId,
        scopes: bot.scopes,
        ...(bot.refreshToken === undefined ? {} : { refreshToken: bot.refreshToken }),
        ...(bot.expiresAt === undefined ? {} : { expiresAt: bot.expiresAt }),
      },
    } as Installation;
  }
  return null;
}

function stripped({ id, name }: { readonly id: string; readonly name?: string | undefined }) {
  return name === undefined ? { id } : { id, name };
}

function without({ teamId, enterpriseId, isEnterpriseInstall }: Query): Installation {
  const user = { id: '', token: undefined, scopes: undefined };
  const team = teamId === undefined ? undefined : { id: teamId };
  const enterprise = enterpriseId === undefined ? undefined : { id: enterpriseId };
  return { user, team, enterprise, isEnterpriseInstall, authVersion: 'v2' } as Installation;
}
