import type { AckFn, RespondArguments } from '@slack/bolt';
import { App, HTTPReceiver, LogLevel } from '@slack/bolt';
import { EVENTS_PATH } from '../../adapters/slack/register.ts';
import { SIGNING_SECRET } from '../support/slack-double.ts';

/** The platform's own framework, with the same receiver, that acknowledges every command with the same: BENCH_REPLY. */
const reply = JSON.parse(process.env.BENCH_REPLY ?? '{}') as RespondArguments;

const receiver = new HTTPReceiver({ signingSecret: SIGNING_SECRET, endpoints: EVENTS_PATH, logLevel: LogLevel.WARN });
const app = new App({
  receiver,
  logLevel: LogLevel.WARN,
  convoStore: false,
  authorize: () => Promise.resolve({ botToken: 'xoxb-made-up', botId: 'B01', botUserId: 'UBOT' }),
});
app.command('/ringwright', ({ ack }: { readonly ack: AckFn<RespondArguments> }) => ack(reply));
const server = await app.start({ host: '127.0.0.1', port: 0 });
const address = server.address();
console.log(JSON.stringify({ msg: 'answering', port: typeof address === 'object' ? address?.port : null }));
process.once('SIGTERM', () => process.exit());
