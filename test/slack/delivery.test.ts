import { describe, expect, it } from 'vitest';
import { deliver } from '../../adapters/slack/delivery.ts';
import type { Send } from '../../adapters/slack/ports.ts';
import type { Scene } from '../../adapters/slack/read.ts';
import { sentence } from '../../adapters/slack/render.ts';
import { readable } from '../support/slack-stage.ts';

const WINDOW = { view: { id: 'V1', kind: 'modal' }, mine: null } as Scene;
const MESSAGE = { view: null, mine: true } as Scene;
const POSTS = ['one', 'two', 'three'].map((words) => sentence(words));

/** What is sent, and that what comes after it comes last. */
async function sent(scene: Scene, already: number): Promise<readonly string[]> {
  const heard: string[] = [];
  const send: Send = ({ blocks }, where) => {
    heard.push(`${where}: ${readable({ blocks })}`);
    return Promise.resolve(true);
  };
  const after = () => Promise.resolve(void heard.push('after'));
  await deliver({ where: 'update', posts: POSTS, after }, scene, send, already);
  return heard;
}

describe('an answer of several messages', () => {
  it('goes into its window as one', async () => {
    expect(await sent(WINDOW, 0)).toEqual(['private: one\ntwo\nthree', 'after']);
  });

  it('does not go again into a window that has it from the first answer', async () => {
    expect(await sent(WINDOW, 3)).toEqual(['after']);
  });

  it('goes out one by one, the first in the place of what was there, without those that are out', async () => {
    expect(await sent(MESSAGE, 0)).toEqual(['update: one', 'private: two', 'private: three', 'after']);
    expect(await sent(MESSAGE, 1)).toEqual(['private: two', 'private: three', 'after']);
  });
});
