import type { Message } from '../../adapters/discord/wire.ts';

/** A phone held upright shows about this many letters of a message in a line (counted on a 390 px wide screen). */
export const PHONE_COLUMNS = 42;

/** A message as a phone shows it, in plain text: lines wrapped, markup taken for what it does, buttons below. */
export function screen({ content, embeds, components }: Message, columns = PHONE_COLUMNS): readonly string[] {
  const lines: string[] = wrapped(shown(content), columns);
  for (const { title, description, footer } of embeds) {
    if (title !== undefined) lines.push('', ...wrapped(title, columns - 2).map((line) => `| ${line}`));
    for (const line of description.split('\n')) {
      lines.push(...wrapped(shown(line.replace(/^-# /, '')), columns - 2).map((each) => `| ${each}`.trimEnd()));
    }
    if (footer !== undefined) lines.push(...wrapped(footer.text, columns - 2).map((line) => `| ${line}`));
  }
  for (const { components: parts } of components) {
    const labels = parts.map((part) => (part.type === 2 ? `[ ${part.label} ]` : `[ ${part.placeholder}  v ]`));
    lines.push(...wrapped(labels.join(' '), columns));
  }
  return lines;
}

function shown(text: string): string {
  return text.replace(/(?<!\\)\*\*/g, '').replace(/\\([^0-9A-Za-z\s])/g, '$1');
}

function wrapped(text: string, columns: number): string[] {
  const lines: string[] = [];
  for (const each of text.split('\n')) {
    let line = '';
    for (const word of each.split(' ')) {
      if (line !== '' && line.length + 1 + word.length > columns) {
        lines.push(line);
        line = word;
      } else {
        line = line === '' ? word : `${line} ${word}`;
      }
    }
    lines.push(line);
  }
  return lines;
}
