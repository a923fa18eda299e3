import { openDouble as openDiscord } from '../support/discord-double.ts';
import { openDouble as openSlack } from '../support/slack-double.ts';

/** Both platforms on loopback, in a process of their own, so that what they cost is not counted as ours. */
export type Doubles = { readonly discordApi: string; readonly slackApi: string };

const [discord, slack] = await Promise.all([openDiscord(), openSlack()]);
process.send?.({ discordApi: discord.api, slackApi: slack.api } satisfies Doubles);
process.once('disconnect', () => process.exit());
