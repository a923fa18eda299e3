/** Pictures by what they show, the least lately used forgotten first once there are more bytes than `mostBytes`. */
export function openCache(mostBytes: number): {
  readonly get: (key: string) => Uint8Array | undefined;
  readonly put: (key: string, png: Uint8Array) => void;
} {
  // A Map keeps its order of insertion: the first is the one used longest ago.
  const kept = new Map<string, Uint8Array>();
  let bytes = 0;
  const drop = (key: string) => {
    bytes -= kept.get(key)?.byteLength ?? 0;
    kept.delete(key);
  };
  return {
    get: (key) => {
      const png = kept.get(key);
      if (png !== undefined) {
        kept.delete(key);
        kept.set(key, png);
      }
      return png;
    },
    put: (key, png) => {
      if (png.byteLength > mostBytes) return;
      drop(key);
      kept.set(key, png);
      bytes += png.byteLength;
      for (const oldest of kept.keys()) {
        if (bytes <= mostBytes) break;
        drop(oldest);
      }
    },
  };
}
