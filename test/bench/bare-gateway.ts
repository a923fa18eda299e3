import { Client, Events, type InteractionReplyOptions, MessageFlags } from 'discord.js';

/**
 * The platform's usual library, used as its guide shows: every command is replied to with the same, BENCH_REPLY. Its
 * own limit of requests a second is off, as it is for ours.
 */
const { BENCH_API: api = '', BENCH_REPLY = '{}' } = process.env;
const { content, embeds, components } = JSON.parse(BENCH_REPLY) as InteractionReplyOptions;
const reply = { content: content ?? '', embeds: embeds ?? [], components: components ?? [] };

const client = new Client({
  intents: [],
  rest: { api, globalRequestsPerSecond: Number.POSITIVE_INFINITY },
  allowedMentions: { parse: [] },
});
client.on(Events.InteractionCreate, async (interaction) => {
  if (interaction.isChatInputCommand()) await interaction.reply({ ...reply, flags: MessageFlags.Ephemeral });
});
client.once(Events.ClientReady, () => console.log(JSON.stringify({ msg: 'answering' })));
await client.login('a-made-up-token-of-a-bot');
process.once('SIGTERM', () => process.exit());
