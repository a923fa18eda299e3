import { z } from 'zod';
import type { Origin } from './modals.ts';

/** The platform's payloads, as far as they are looked at here. */

const Id = z.string().regex(/^[A-Z0-9]{1,40}$/);
const Stamp = z.string().regex(/^\d{1,12}\.\d{1,8}$/);
const User = z.object({ id: Id });
const Team = z.object({ id: Id }).nullish();

export const Slash = z.object({
  command: z.string(),
  text: z.string().default(''),
  user_id: Id,
  team_id: Id.optional(),
  enterprise_id: Id.optional(),
  channel_id: Id,
  response_url: z.string(),
  trigger_id: z.string(),
});

export const Common = z.object({ user: User, team: Team, enterprise: Team, trigger_id: z.string().optional() });

const Selected = z.object({ value: z.string() }).nullish();
export const Actions = Common.extend({
  type: z.literal('block_actions'),
  channel: z.object({ id: Id }).optional(),
  container: z.object({
    type: z.string(),
    thread_ts: Stamp.optional(),
    is_ephemeral: z.boolean().default(false),
  }),
  message: z.object({ thread_ts: Stamp.optional() }).optional(),
  view: z.object({ id: z.string(), type: z.enum(['home', 'modal']) }).optional(),
  response_url: z.string().optional(),
  actions: z
    .array(
      z.object({
        action_id: z.string(),
        type: z.string(),
        value: z.string().optional(),
        action_ts: z.string().optional(),
        selected_option: Selected,
      }),
    )
    .min(1),
});

export const Shortcut = Common.extend({
  type: z.literal('message_action'),
  callback_id: z.string(),
  channel: z.object({ id: Id }),
  message: z.object({
    ts: Stamp,
    thread_ts: Stamp.optional(),
    text: z.string().default(''),
    bot_id: z.string().optional(),
    blocks: z.unknown().optional(),
  }),
  response_url: z.string(),
});

export const Submission = Common.extend({
  type: z.literal('view_submission'),
  view: z.object({
    id: z.string(),
    private_metadata: z.string().default(''),
    state: z.object({
      values: z.record(
        z.string(),
        z.record(z.string(), z.object({ value: z.string().nullish(), selected_option: Selected })),
      ),
    }),
  }),
});

export const Suggestion = Common.extend({
  type: z.literal('block_suggestion'),
  action_id: z.string(),
  value: z.string().default(''),
});

export const Event = z.object({
  type: z.literal('event_callback'),
  team_id: Id.optional(),
  enterprise_id: Id.optional(),
  event_id: z.string(),
  event: z.discriminatedUnion('type', [
    z.object({
      type: z.literal('app_mention'),
      user: Id.optional(),
      bot_id: z.string().optional(),
      text: z.string().default(''),
      ts: Stamp,
      thread_ts: Stamp.optional(),
      channel: Id,
    }),
    z.object({ type: z.literal('app_home_opened'), user: Id, tab: z.string().default('home') }),
    z.object({ type: z.literal('app_uninstalled') }),
    z.object({ type: z.literal('tokens_revoked'), tokens: z.object({ bot: z.array(z.string()).nullish() }) }),
  ]),
});

export const Metadata = z.object({
  press: z.string(),
  url: z.string().nullable(),
  used: z.number(),
  sinceMs: z.number(),
  channel: z.string().nullable(),
  thread: z.string().nullable(),
  mine: z.boolean().nullable(),
}) satisfies z.ZodType<Origin>;
