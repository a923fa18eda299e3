/** Payloads as the platform sends them, with only what it documents for each. */
export const TEAM = 'T01TEAM';
export const CHANNEL = 'C01SHOP';

export type Json = Record<string, unknown>;

let count = 0;

/** A new trigger: the platform never gives the same twice. */
export function trigger(): string {
  count += 1;
  return `${count}.trigger`;
}

export function stamp(): string {
  count += 1;
  return `1764072000.${String(count).padStart(6, '0')}`;
}

export type By = { readonly user: string; readonly team?: string; readonly channel?: string };

export function slash({ user, team = TEAM, channel = CHANNEL }: By, text: string, url: string): Json {
  return {
    command: '/ringwright',
    text,
    user_id: user,
    user_name: user.toLowerCase(),
    team_id: team,
    team_domain: 'shop',
    channel_id: channel,
    channel_name: 'shop',
    api_app_id: 'A01',
    is_enterprise_install: 'false',
    response_url: url,
    trigger_id: trigger(),
  };
}

/** Where a press comes from: a message, a window, or the Home tab. */
export type Container =
  | {
      readonly kind: 'message';
      readonly ts: string;
      readonly mine: boolean;
      readonly thread?: string;
      readonly url: string;
    }
  | { readonly kind: 'home' | 'modal'; readonly id: string };

export function press({ user, team = TEAM, channel = CHANNEL }: By, action: Json, container: Container): Json {
  const common = {
    type: 'block_actions',
    user: { id: user, team_id: team },
    team: { id: team, domain: 'shop' },
    trigger_id: trigger(),
    actions: [{ block_id: 'b', action_ts: stamp(), ...action }],
  };
  if (container.kind !== 'message') {
    return {
      ...common,
      container: { type: 'view', view_id: container.id },
      view: { id: container.id, type: container.kind, private_metadata: '' },
    };
  }
  const { ts, mine, thread, url } = container;
  return {
    ...common,
    channel: { id: channel, name: 'shop' },
    container: {
      type: 'message',
      message_ts: ts,
      channel_id: channel,
      is_ephemeral: mine,
      ...(thread === undefined ? {} : { thread_ts: thread }),
    },
    response_url: url,
  };
}

export function shortcut({ user, team = TEAM, channel = CHANNEL }: By, name: string, message: Json, url: string): Json {
  return {
    type: 'message_action',
    callback_id: name,
    user: { id: user, team_id: team },
    team: { id: team, domain: 'shop' },
    channel: { id: channel, name: 'shop' },
    message: { type: 'message', ...message },
    message_ts: message.ts,
    action_ts: stamp(),
    response_url: url,
    trigger_id: trigger(),
  };
}

/** A window sent off; every field that was not filled in comes empty. */
export function submission(
  { user, team = TEAM }: By,
  view: { readonly id: string; readonly private_metadata: string; readonly blocks: readonly Json[] },
  told: Readonly<Record<string, string>>,
): Json {
  const inputs = view.blocks.filter((block) => block.type === 'input');
  const values = inputs.map((block) => {
    const element = block.element as Json;
    const value = told[String(block.block_id)];
    const text = element.type === 'plain_text_input';
    const given = text ? { value: value ?? null } : { selected_option: value === undefined ? null : { value } };
    return [block.block_id, { [String(element.action_id)]: { type: element.type, ...given } }];
  });
  return {
    type: 'view_submission',
    user: { id: user, team_id: team },
    team: { id: team, domain: 'shop' },
    trigger_id: trigger(),
    view: { ...view, type: 'modal', state: { values: Object.fromEntries(values) } },
  };
}

export function suggestion({ user, team = TEAM }: By, action_id: string, value: string): Json {
  const people = { user: { id: user, team_id: team }, team: { id: team, domain: 'shop' } };
  return { type: 'block_suggestion', ...people, action_id, block_id: 'b', value };
}

export function event(event: Json, team: string = TEAM): Json {
  count += 1;
  return { type: 'event_callback', team_id: team, api_app_id: 'A01', event_id: `Ev${count}`, event_time: 1, event };
}

export function mention({ user, team = TEAM, channel = CHANNEL }: By, text: string, thread?: string): Json {
  const at = thread === undefined ? {} : { thread_ts: thread };
  return event({ type: 'app_mention', user, text: `<@UBOT> ${text}`, ts: stamp(), channel, ...at }, team);
}
