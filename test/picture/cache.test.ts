import { describe, expect, it } from 'vitest';
import { openCache } from '../../adapters/picture/cache.ts';

const bytes = (count: number) => new Uint8Array(count);

describe('the cache', () => {
  it('forgets what was used longest ago once there are too many bytes', () => {
    const cache = openCache(30);
    cache.put('a', bytes(10));
    cache.put('b', bytes(10));
    cache.put('c', bytes(10));
    expect(cache.get('a')).toBeDefined();
    cache.put('d', bytes(15));
    expect(['a', 'b', 'c', 'd'].map((key) => cache.get(key) !== undefined)).toEqual([true, false, false, true]);
  });

  it('counts the bytes of a key put twice once', () => {
    const cache = openCache(20);
    cache.put('a', bytes(10));
    cache.put('a', bytes(10));
    cache.put('b', bytes(10));
    expect(cache.get('a')).toBeDefined();
    expect(cache.get('b')).toBeDefined();
  });

  it('keeps nothing that is larger than all of it', () => {
    const cache = openCache(5);
    cache.put('a', bytes(3));
    cache.put('b', bytes(6));
    expect(cache.get('b')).toBeUndefined();
    expect(cache.get('a')).toBeDefined();
  });
});
