import { z } from 'zod';
import { readPerson, readPlace, type Who } from '../../src/records/place.ts';
import { asTyped } from './escape.ts';
import type { Origin } from './modals.ts';
import { Actions, type Common, Event, Metadata, Shortcut, Slash, Submission, Suggestion } from './payloads.ts';

/** An address to which answers may be sent a few times. */
export type Address = { readonly url: string; readonly used: number; readonly sinceMs: number };

/** Where and by whom, the same for every kind. */
export type Scene = {
  /** The same for a payload that is delivered twice. */
  readonly id: string;
  /** The workspace, or the organisation where there is none. */
  readonly team: string;
  readonly user: string;
  /** Null where the platform does not say who and where: then nothing can be kept. */
  readonly who: Who | null;
  readonly channel: string | null;
  readonly thread: string | null;
  /** Whether that thread is there already: a private answer in one that is not would be seen by nobody. */
  readonly threaded: boolean;
  readonly trigger: string | null;
  readonly address: Address | null;
  /** Whether the message that this came from is seen by one person only; null without a message. */
  readonly mine: boolean | null;
  /** The window that this came from, for an answer in its place. */
  readonly view: { readonly id: string; readonly kind: 'home' | 'modal' } | null;
};

export type Told = Readonly<Record<string, string>>;

/** A message somebody used a shortcut on. */
export type Target = {
  readonly channel: string;
  readonly message: string;
  readonly thread: string;
  readonly text: string;
  /** The code under one of our own answers. */
  readonly code: string | null;
};

export type Incoming =
  | { readonly kind: 'unknown'; readonly type: string | null }
  | ({ readonly scene: Scene } & (
      | { readonly kind: 'command'; readonly text: string }
      | { readonly kind: 'press'; readonly press: string; readonly value: string }
      | { readonly kind: 'shortcut'; readonly name: string; readonly target: Target }
      | {
          readonly kind: 'submit';
          readonly press: string;
          readonly fields: Told;
          /** Every field there was, told or not. */
          readonly inputs: readonly string[];
        }
      | { readonly kind: 'typing'; readonly field: string; readonly typed: string }
      | { readonly kind: 'mention'; readonly text: string }
      | { readonly kind: 'home' }
      | { readonly kind: 'gone' }
    ));

/** Reads a payload as it came over a socket or in the body of a request: both are the same JSON. */
export function readIncoming(payload: unknown, nowMs: number): Incoming {
  const type = z.object({ type: z.string().optional() }).safeParse(payload).data?.type ?? null;
  switch (type) {
    case null:
      return read(Slash, payload, type, (slash) => command(slash, nowMs));
    case 'block_actions':
      return read(Actions, payload, type, (actions) => press(actions, nowMs));
    case 'message_action':
      return read(Shortcut, payload, type, (used) => shortcut(used, nowMs));
    case 'view_submission':
      return read(Submission, payload, type, (submitted) => submission(submitted));
    case 'block_suggestion':
      return read(Suggestion, payload, type, (asked) => {
        return { kind: 'typing', scene: sceneOf(asked, ''), field: asked.action_id, typed: asked.value };
      });
    case 'event_callback':
      return read(Event, payload, type, event);
    default:
      return { kind: 'unknown', type };
  }
}

function read<Shape extends z.ZodType>(
  shape: Shape,
  payload: unknown,
  type: string | null,
  make: (value: z.output<Shape>) => Incoming,
): Incoming {
  const found = shape.safeParse(payload);
  return found.success ? make(found.data) : { kind: 'unknown', type };
}

/** The name of somebody in the records: as the platform writes them, so that what is typed means the same. */
function whoIs(team: string, user: string): Who | null {
  const place = readPlace(`slack:${team}`);
  const person = readPerson(`<@${user}>`);
  return team === '' || user === '' || place === null || person === null ? null : { place, person };
}

function scene(id: string, team: string, user: string): Scene {
  const nowhere = { channel: null, thread: null, threaded: true, trigger: null, address: null, mine: null, view: null };
  return { id, team, user, who: whoIs(team, user), ...nowhere };
}

function sceneOf({ team, enterprise, user, trigger_id }: z.output<typeof Common>, more: string): Scene {
  const id = trigger_id === undefined ? '' : `${trigger_id} ${more}`;
  return { ...scene(id, team?.id ?? enterprise?.id ?? '', user.id), trigger: trigger_id ?? null };
}

function command(slash: z.output<typeof Slash>, nowMs: number): Incoming {
  const { team_id, enterprise_id, user_id, channel_id, response_url, trigger_id, text } = slash;
  return {
    kind: 'command',
    text: asTyped(text).trim(),
    scene: {
      ...scene(trigger_id, team_id ?? enterprise_id ?? '', user_id),
      channel: channel_id,
      trigger: trigger_id,
      address: { url: response_url, used: 0, sinceMs: nowMs },
    },
  };
}

function press(payload: z.output<typeof Actions>, nowMs: number): Incoming {
  const { actions, container, channel, message, view, response_url } = payload;
  const [action] = actions;
  if (action === undefined) return { kind: 'unknown', type: payload.type };
  const inMessage = container.type === 'message';
  const selected = action.selected_option?.value ?? '';
  return {
    kind: 'press',
    // A button carries its press as its value, a list as its id.
    press: action.type === 'button' ? (action.value ?? '') : action.action_id,
    value: selected,
    scene: {
      ...sceneOf(payload, action.action_ts ?? ''),
      channel: channel?.id ?? null,
      thread: container.thread_ts ?? message?.thread_ts ?? null,
      address: response_url === undefined ? null : { url: response_url, used: 0, sinceMs: nowMs },
      mine: inMessage ? container.is_ephemeral : null,
      view: view === undefined ? null : { id: view.id, kind: view.type },
    },
  };
}

function shortcut(payload: z.output<typeof Shortcut>, nowMs: number): Incoming {
  const { callback_id, channel, message, response_url } = payload;
  const code = /Code #([0-9A-Z]{8})\b/.exec(JSON.stringify(message.blocks) ?? '')?.[1] ?? null;
  const thread = message.thread_ts ?? message.ts;
  return {
    kind: 'shortcut',
    name: callback_id,
    target: {
      channel: channel.id,
      message: message.ts,
      thread,
      text: asTyped(message.text),
      code: message.bot_id === undefined ? null : code,
    },
    scene: {
      ...sceneOf(payload, ''),
      channel: channel.id,
      thread: message.thread_ts ?? null,
      address: { url: response_url, used: 0, sinceMs: nowMs },
    },
  };
}

function submission(payload: z.output<typeof Submission>): Incoming {
  const { view } = payload;
  const origin = readOrigin(view.private_metadata);
  if (origin === null) return { kind: 'unknown', type: payload.type };
  const told = Object.entries(view.state.values).flatMap(([name, inputs]) => {
    const [input] = Object.values(inputs);
    const value = input?.selected_option?.value ?? input?.value ?? '';
    return value.trim() === '' ? [] : [[name, value] as const];
  });
  const { press: pressed, url, used, sinceMs, channel, thread, mine } = origin;
  return {
    kind: 'submit',
    press: pressed,
    fields: Object.fromEntries(told),
    inputs: Object.keys(view.state.values),
    scene: {
      ...sceneOf(payload, view.id),
      channel,
      thread,
      address: url === null ? null : { url, used, sinceMs },
      mine,
      view: url === null ? { id: view.id, kind: 'modal' } : null,
    },
  };
}

function readOrigin(metadata: string): Origin | null {
  try {
    return Metadata.safeParse(JSON.parse(metadata)).data ?? null;
  } catch {
    return null;
  }
}

function event({ team_id, enterprise_id, event_id, event: told }: z.output<typeof Event>): Incoming {
  const team = team_id ?? enterprise_id ?? '';
  switch (told.type) {
    case 'app_mention': {
      const { user, bot_id, text, ts, thread_ts, channel } = told;
      // Programs that mention each other would never stop.
      if (user === undefined || bot_id !== undefined) return { kind: 'unknown', type: 'app_mention by a program' };
      return {
        kind: 'mention',
        text: asTyped(text.replace(/^\s*(?:<@[UW][A-Z0-9]+(?:\|[^<>]*)?>\s*)+/, '')).trim(),
        scene: { ...scene(event_id, team, user), channel, thread: thread_ts ?? ts, threaded: thread_ts !== undefined },
      };
    }
    case 'app_home_opened':
      return told.tab === 'home'
        ? { kind: 'home', scene: scene(event_id, team, told.user) }
        : { kind: 'unknown', type: 'app_home_opened elsewhere' };
    case 'app_uninstalled':
      return { kind: 'gone', scene: scene(event_id, team, '') };
    case 'tokens_revoked':
      return (told.tokens.bot ?? []).length > 0
        ? { kind: 'gone', scene: scene(event_id, team, '') }
        : { kind: 'unknown', type: 'tokens_revoked of a person' };
  }
}
