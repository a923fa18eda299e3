import { describe, expect, it } from 'vitest';
import { render } from '../../adapters/discord/render.ts';
import { ask } from '../../src/workbench.ts';
import { PHONE_COLUMNS, screen } from '../support/discord-screen.ts';

const BIKE = '2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm chain=108';

/**
 * The questions riders ask most, as they would ask them here, and what the first screen must hold. `DISCORD_SCREENS=1`
 * prints them all, to be read with one's own eyes.
 */
const QUESTIONS = [
  ['will I lose my climbing gear', 'convert', BIKE, ['45 % harder', '0.89', 'STOP:']],
  ['will the chain stay on', 'convert', `${BIKE} ground=rough guide=no`, ['32T', 'STOP:']],
  ['30, 32 or 34', 'gears', `36/22 11-36 29er ring=34`, ['34T']],
  ['what do I have to buy', 'convert', `${BIKE} hub=142`, ['bolts', 'Chain: 106']],
  [
    'which position, which chainline',
    'chainline',
    'chainline=49mm hub=142 stays=440mm speeds=10 cassette=11-36',
    ['49 mm'],
  ],
  ['my bolts are too long', 'mount', 'rings=36/22 bcd=104 bolts=4 ring=32 sharing=2', ['32T', 'STOP:']],
  [
    'how many links do I take out',
    'chain',
    'rings=36/22 cassette=11-36 ring=32 stays=440mm chain=108',
    ['106 pitches', 'STOP:'],
  ],
  ['will my mech take that cassette', 'convert', `${BIKE} newcassette=11-46 maxcog=36 cage=short`, ['46']],
  ['what bolt circle is it', 'mount', 'rings=50/34 bolts=5 gap=64.7mm', ['110 mm']],
  ['how much weight', 'weight', '36/22 ring=32 bar=flat', ['g (']],
] as const;

/** What is in view before a thumb moves. */
const FIRST_SCREEN = 30;

describe('on a phone', () => {
  it.each(QUESTIONS)('"%s" is answered in view', (question, command, setup, facts) => {
    const reply = ask({ command, setup });
    expect(reply.kind).toBe('answered');
    const told =
      reply.kind === 'refused' ? reply : { ...reply, receipt: { code: '7K3M9Q2A', rules: '2026-11', again: false } };
    const look = { command, setup: '#7K3M9Q2A' };
    const [post] = render(told, { seen: { view: 'short', page: 0 }, look, everybody: false, drawn: [] });
    if (post === undefined) throw new Error('nothing to show');
    const lines = screen(post.body);
    if (process.env.DISCORD_SCREENS) process.stdout.write(`\n# ${question}\n${lines.join('\n')}\n`);

    // Words wrap: no line is wider than the screen, and nothing stands in columns or in a code block.
    for (const line of lines) expect(line.length, line).toBeLessThanOrEqual(PHONE_COLUMNS);
    expect(JSON.stringify(post.body)).not.toMatch(/```|\| {2,}/);
    // The answer is what stands first, in a few lines.
    expect(post.body.content.length).toBeLessThanOrEqual(130);
    const first = lines
      .slice(0, FIRST_SCREEN)
      .join('\n')
      .replace(/\n(?:\| )?/g, ' ');
    for (const fact of facts) expect(first).toContain(fact);
    expect(post.body.components.length).toBeGreaterThan(0);
  });
});
