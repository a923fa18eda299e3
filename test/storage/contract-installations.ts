import { describe, expect, it } from 'vitest';
import { newPlace } from '../support/storages.ts';
import type { UnderTest } from './contract.ts';

/** What the port promises of installations. */
export function installationsContract(under: UnderTest): void {
  describe('installations', () => {
    it('are kept for one place, the newest in place of the one before', async () => {
      const { installations } = under.records();
      const [here, there] = [newPlace().at, newPlace().at];
      expect(await installations.read(here)).toBeNull();
      await installations.keep(here, 'first', 1);
      await installations.keep(here, 'second', 2);
      expect(await installations.read(here)).toBe('second');
      expect(await installations.read(there)).toBeNull();
    });

    it('are removed, and nothing else of the place with them', async () => {
      const { installations, bikes } = under.records();
      const { at, ann } = newPlace();
      await installations.keep(at, 'sealed', 1);
      await bikes.save(ann, { name: 'Winter', setup: 'rings=36/22', bike: { rings: [36, 22] }, shared: false }, 1);
      expect(await installations.remove(at)).toBe(true);
      expect(await installations.read(at)).toBeNull();
      expect(await installations.remove(at)).toBe(false);
      expect(await bikes.load(ann, 'winter')).not.toBeNull();
    });

    it('of two processes at once are kept, whichever comes last', async () => {
      const { installations } = under.records();
      const { at } = newPlace();
      await Promise.all(['a', 'b', 'c'].map((text) => installations.keep(at, text, 1)));
      expect(['a', 'b', 'c']).toContain(await installations.read(at));
    });
  });
}
