import { boltStackDrawing } from './bolt-stack.ts';
import { chainDrawing, countDrawing } from './chain.ts';
import { chainlineDrawing } from './chainline.ts';
import type { Figure, MeasureFigure } from './figure.ts';
import { gearsDrawing } from './gears.ts';
import { gapDrawing, stackDrawing } from './measure-crank.ts';
import { lineDrawing, longestDrawing, staysDrawing } from './measure-frame.ts';
import { wearDrawing } from './measure-wear.ts';
import { type Drawing, inColours } from './svg.ts';
import { THEMES, type ThemeName } from './theme.ts';

/** A figure as SVG text: the same figure and theme give the same bytes, always. */
export function draw(figure: Figure, theme: ThemeName): string {
  return inColours(drawing(figure), THEMES[theme]);
}

function drawing(figure: Figure): Drawing {
  switch (figure.kind) {
    case 'gears':
      return gearsDrawing(figure);
    case 'chainline':
      return chainlineDrawing(figure);
    case 'bolt-stack':
      return boltStackDrawing(figure);
    case 'chain':
      return chainDrawing(figure);
    case 'measure':
      return measureDrawing(figure);
  }
}

function measureDrawing(figure: MeasureFigure): Drawing {
  switch (figure.what) {
    case 'gap':
      return gapDrawing(figure);
    case 'chainline':
      return lineDrawing(figure);
    case 'stays':
      return staysDrawing();
    case 'longest':
      return longestDrawing();
    case 'count':
      return countDrawing();
    case 'wear':
      return wearDrawing(figure);
    case 'stack':
      return stackDrawing();
  }
}
