import { line, type Point, path, px } from './svg.ts';

const HEAD_LONG = 10;
const HEAD_HALF = 2.6;
/** A dimension shorter than this has its arrows outside, pointing in. */
const LEAST_INSIDE = 26;

/** A level dimension line between two upright edges, with slim arrows. */
export function levelDimension(from: number, to: number, y: number): string {
  const [left, right] = from < to ? [from, to] : [to, from];
  const inside = right - left >= LEAST_INSIDE;
  const reach = inside ? 0 : 16;
  return (
    line([left - reach, y], [right + reach, y], 'fine') +
    path(head(inside ? 'left' : 'right'), 'solid', [left, y]) +
    path(head(inside ? 'right' : 'left'), 'solid', [right, y])
  );
}

/** An upright dimension line between two level edges. */
export function uprightDimension(from: number, to: number, x: number): string {
  const [top, bottom] = from < to ? [from, to] : [to, from];
  return (
    line([x, top], [x, bottom], 'fine') + path(head('up'), 'solid', [x, top]) + path(head('down'), 'solid', [x, bottom])
  );
}

/** A dimension line between any two points. */
export function slantedDimension([x1, y1]: Point, [x2, y2]: Point): string {
  const turn = (Math.atan2(y2 - y1, x2 - x1) * 180) / Math.PI;
  return line([x1, y1], [x2, y2], 'fine') + turned([x1, y1], turn + 180) + turned([x2, y2], turn);
}

/** An arrow that points from its tail to its tip. */
export function pointer([x1, y1]: Point, [x2, y2]: Point): string {
  return line([x1, y1], [x2, y2], 'fine') + turned([x2, y2], (Math.atan2(y2 - y1, x2 - x1) * 180) / Math.PI);
}

function turned([x, y]: Point, degrees: number): string {
  return `<path class="solid" d="${head('right')}" transform="translate(${px(x)} ${px(y)}) rotate(${px(degrees)})"/>`;
}

/** An arrow head whose tip is at the origin. */
function head(towards: 'left' | 'right' | 'up' | 'down'): string {
  switch (towards) {
    case 'left':
      return `M0 0L${HEAD_LONG} ${-HEAD_HALF}V${HEAD_HALF}Z`;
    case 'right':
      return `M0 0L${-HEAD_LONG} ${-HEAD_HALF}V${HEAD_HALF}Z`;
    case 'up':
      return `M0 0L${-HEAD_HALF} ${HEAD_LONG}H${HEAD_HALF}Z`;
    case 'down':
      return `M0 0L${-HEAD_HALF} ${-HEAD_LONG}H${HEAD_HALF}Z`;
  }
}
