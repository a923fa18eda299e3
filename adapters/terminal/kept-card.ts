import type { Card } from '../../src/card/card.ts';
import type { Reply } from '../../src/request.ts';

/**
 * The card of a reply as one types at a terminal: what can be done next with something kept begins with its command,
 * because a line that is only copied has no other way to say it.
 */
export function typedCard(reply: Reply): Card {
  if (reply.kind !== 'kept') return reply.card;
  const blocks = reply.card.blocks.map((block) =>
    block.kind === 'actions'
      ? { ...block, actions: block.actions.map((each) => ({ ...each, setup: `${reply.command} ${each.setup}` })) }
      : block,
  );
  return { ...reply.card, blocks };
}
