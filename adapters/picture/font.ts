import { fileURLToPath } from 'node:url';
import { FONT_FAMILY } from '../../src/draw/theme.ts';

const PACKAGE = '@expo-google-fonts/barlow-semi-condensed';
const FILES = ['400Regular/BarlowSemiCondensed_400Regular.ttf', '600SemiBold/BarlowSemiCondensed_600SemiBold.ttf'];

/** The bundled typeface and no other: a picture looks the same on every machine. */
export const FONT = {
  fontFiles: FILES.map((file) => fileURLToPath(import.meta.resolve(`${PACKAGE}/${file}`))),
  loadSystemFonts: false,
  defaultFontFamily: FONT_FAMILY,
};
