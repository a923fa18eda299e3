import { FONT_FAMILY, type Theme } from './theme.ts';

/** Every picture is this wide: shown on a telephone 360 pixels across, its smallest text is still 12 pixels tall. */
export const WIDTH = 480;
export const MARGIN = 16;
export const SIZE = { small: 16, usual: 17, title: 21 } as const;

/** A picture before it is given its colours. */
export type Drawing = {
  readonly height: number;
  readonly parts: readonly string[];
  /** No label of it touches a line or a part, so that none needs a halo: those take a third of what a picture takes. */
  readonly clear?: boolean;
};

export type Point = readonly [x: number, y: number];

/**
 * How a line or a shape looks: `edge` the outline of a part, `fine` a thin line, `axis` long-short-long as centre lines
 * are drawn, `dashed` for what is not there yet, `strong` in the accent, `chain` a chain from afar; `solid`, `accented`
 * and `open` filled with ink, accent and paper, `paper` without an outline; `hatched` cut material and `hatched-back` its
 * neighbour, `shade` the same hatching without an outline.
 */
export type Look =
  | 'edge'
  | 'fine'
  | 'axis'
  | 'dashed'
  | 'strong'
  | 'chain'
  | 'solid'
  | 'accented'
  | 'open'
  | 'paper'
  | 'hatched'
  | 'hatched-back'
  | 'shade';

type TextStyle = {
  readonly size?: number;
  readonly bold?: boolean;
  readonly anchor?: 'start' | 'middle' | 'end';
  /** `scale` marks the figures of a scale, which say nothing of the bike. */
  readonly tone?: 'quiet' | 'accent' | 'scale';
};

/** A coordinate to a hundredth of a pixel. */
export function px(value: number): string {
  return String(Math.round(value * 100) / 100);
}

export function text([x, y]: Point, words: string, style: TextStyle = {}): string {
  const { size = SIZE.usual, bold = false, anchor = 'start', tone } = style;
  const classes = [bold ? 'bold' : '', tone ?? ''].filter((each) => each !== '').join(' ');
  const shown = classes === '' ? '' : ` class="${classes}"`;
  const placed = anchor === 'start' ? '' : ` text-anchor="${anchor}"`;
  return `<text${shown} x="${px(x)}" y="${px(y)}" font-size="${size}"${placed}>${escaped(words)}</text>`;
}

export function line([x1, y1]: Point, [x2, y2]: Point, look: Look): string {
  return `<line class="${look}" x1="${px(x1)}" y1="${px(y1)}" x2="${px(x2)}" y2="${px(y2)}"/>`;
}

export function rect([x, y]: Point, width: number, height: number, look: Look): string {
  return `<rect class="${look}" x="${px(x)}" y="${px(y)}" width="${px(width)}" height="${px(height)}"/>`;
}

export function circle([x, y]: Point, radius: number, look: Look): string {
  return `<circle class="${look}" cx="${px(x)}" cy="${px(y)}" r="${px(radius)}"/>`;
}

/** A path in its own coordinates, moved to a point. */
export function path(d: string, look: Look, [x, y]: Point = [0, 0]): string {
  const moved = x === 0 && y === 0 ? '' : ` transform="translate(${px(x)} ${px(y)})"`;
  return `<path class="${look}" d="${d}"${moved}/>`;
}

function escaped(words: string): string {
  return words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

/** The whole picture as SVG text in the colours of a theme. */
export function inColours({ height, parts, clear = false }: Drawing, theme: Theme): string {
  const tall = px(height);
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${tall}" viewBox="0 0 ${WIDTH} ${tall}" font-family="${FONT_FAMILY}">` +
    `<style>${styles(theme, clear ? '' : halo(theme))}</style><defs>${hatch('hatch', theme)}${hatch('hatch-back', theme)}</defs>` +
    `<rect width="${WIDTH}" height="${tall}" fill="${theme.paper}"/>${parts.join('')}</svg>`
  );
}

/** Keeps a label readable where it must stand on a line. */
function halo({ paper }: Theme): string {
  return `;stroke:${paper};stroke-width:4px;stroke-linejoin:round;paint-order:stroke`;
}

function styles({ paper, ink, quiet, accent }: Theme, aroundText: string): string {
  return [
    `text{fill:${ink}${aroundText}}`,
    '.bold{font-weight:600}',
    `.quiet,.scale{fill:${quiet}}`,
    `.accent{fill:${accent}}`,
    `.edge{fill:none;stroke:${ink};stroke-width:2px;stroke-linejoin:round}`,
    `.fine{fill:none;stroke:${quiet};stroke-width:1.2px}`,
    `.axis{fill:none;stroke:${quiet};stroke-width:1.2px;stroke-dasharray:14 4 3 4}`,
    `.dashed{fill:none;stroke:${ink};stroke-width:1.6px;stroke-dasharray:6 4}`,
    `.strong{fill:none;stroke:${accent};stroke-width:2.6px;stroke-linejoin:round}`,
    `.chain{fill:none;stroke:${ink};stroke-width:5px;stroke-dasharray:9 3}`,
    `.solid{fill:${ink}}`,
    `.accented{fill:${accent}}`,
    `.open{fill:${paper};stroke:${ink};stroke-width:2px;stroke-linejoin:round}`,
    `.paper{fill:${paper}}`,
    `.hatched{fill:url(#hatch);stroke:${ink};stroke-width:2px}`,
    `.hatched-back{fill:url(#hatch-back);stroke:${ink};stroke-width:2px}`,
    '.shade{fill:url(#hatch)}',
  ].join('');
}

function hatch(name: 'hatch' | 'hatch-back', theme: Theme): string {
  const turn = name === 'hatch' ? 45 : -45;
  return (
    `<pattern id="${name}" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(${turn})">` +
    `<line x1="0" y1="0" x2="0" y2="6" stroke="${theme.hatch}" stroke-width="2.4"/></pattern>`
  );
}
