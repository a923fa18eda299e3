/**
 * Remembers the last `most` ids and says whether one came before: platforms deliver again what they think was lost, and
 * a resumed session tells twice.
 */
export function openTwice(most: number): (id: string) => boolean {
  const seen = new Set<string>();
  return (id) => {
    if (seen.has(id)) return true;
    seen.add(id);
    for (const each of seen) {
      if (seen.size <= most) break;
      seen.delete(each);
    }
    return false;
  };
}
