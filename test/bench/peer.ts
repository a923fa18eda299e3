import { fork } from 'node:child_process';

/** Another process of a benchmark that is told what to do, one thing after the other, and says what came of it. */
export type Peer<Told> = {
  /** What it said when it was ready. */
  readonly told: Told;
  readonly ask: <Answer>(question: unknown) => Promise<Answer>;
  readonly end: () => void;
};

export async function openPeer<Told>(file: string): Promise<Peer<Told>> {
  const child = fork(new URL(file, import.meta.url), { serialization: 'advanced' });
  const ended = new Promise<never>((_, reject) => {
    child.once('close', () => reject(new Error(`${file} ended.`)));
  });
  // Only whoever waits for a word is told; at the end nobody does.
  ended.catch(() => undefined);
  const heard = () => new Promise<unknown>((resolve) => child.once('message', resolve));
  const said = () => Promise.race([heard(), ended]);
  return {
    told: (await said()) as Told,
    ask: async <Answer>(question: unknown) => {
      const answer = said();
      child.send(question as object);
      return (await answer) as Answer;
    },
    end: () => child.disconnect(),
  };
}
