/**
 * What is meant by a line in a conversation that already has a bike: "what about 34?" and a bare "34" ask for that ring;
 * the same opening before other words is only an opening.
 */
export function followUp(line: string): string {
  const rest = line
    .replace(/^(?:(?:and|but|or)\s+)?(?:(?:what|how)\s+about|what\s+if|and|or|try)\s+/i, '')
    .replace(/\s*\?+$/, '');
  const ring = /^(?:an?\s+)?(\d{2})\s*(?:t|teeth|tooth)?$/i.exec(rest);
  return ring === null ? rest : `ring=${ring[1]}`;
}
