import type { Pictures } from '../../src/draw/pictures.ts';
import type { Metrics } from './metrics.ts';

/** Pictures that are counted by what became of them. */
export function watchedPictures(pictures: Pictures, { picture }: Pick<Metrics, 'picture'>): Pictures {
  return {
    ...pictures,
    png: async (figure, theme) => {
      const made = await pictures.png(figure, theme);
      picture(made.kind);
      return made;
    },
  };
}
