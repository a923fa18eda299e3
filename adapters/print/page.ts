import { fileURLToPath } from 'node:url';
import PDFDocument from 'pdfkit';

export type Paper = 'a4' | 'letter';

const PACKAGE = '@expo-google-fonts/barlow-semi-condensed';
const FONTS = {
  regular: fileURLToPath(import.meta.resolve(`${PACKAGE}/400Regular/BarlowSemiCondensed_400Regular.ttf`)),
  bold: fileURLToPath(import.meta.resolve(`${PACKAGE}/600SemiBold/BarlowSemiCondensed_600SemiBold.ttf`)),
};

/** In points; most printers keep clear of less than this. */
export const MARGIN = 24;

/** The typeface brings more air between its lines than a dense sheet can spare. */
const TIGHTER = -0.07;

type Style = { readonly size: number; readonly bold?: boolean };

/** A sheet of paper to write on, in points from its top left corner, black on white. */
export type Page = {
  readonly width: number;
  readonly bottom: number;
  /** Writes a paragraph and gives the height it takes. */
  readonly write: (text: string, x: number, y: number, width: number, style: Style) => number;
  /** The height a paragraph would take. */
  readonly height: (text: string, width: number, style: Style) => number;
  readonly box: (x: number, y: number, width: number, height: number) => void;
  readonly turn: () => void;
  readonly finish: () => Promise<Uint8Array>;
};

/** An empty page. The same writing at the same time gives the same bytes. */
export function openPage(paper: Paper, title: string, atMs: number): Page {
  const pdf = new PDFDocument({
    size: paper === 'a4' ? 'A4' : 'LETTER',
    margin: 0,
    // Said for whoever has the page read out.
    lang: 'en',
    displayTitle: true,
    info: { Title: title, CreationDate: new Date(atMs) },
  });
  const chunks: Uint8Array[] = [];
  pdf.on('data', (chunk: Uint8Array) => chunks.push(chunk));
  const done = new Promise<Uint8Array>((resolve, reject) => {
    pdf.on('end', () => resolve(Buffer.concat(chunks)));
    pdf.on('error', reject);
  });
  pdf.registerFont('regular', FONTS.regular).registerFont('bold', FONTS.bold).lineWidth(0.6);
  const set = ({ size, bold = false }: Style) => pdf.font(bold ? 'bold' : 'regular').fontSize(size);
  // What a person typed stays on its line: a line break in it could start a row of its own.
  const level = (text: string) => text.replace(/[\r\n\u2028\u2029]+/gu, ' ');
  // Laying a line out is most of the work, and every line is asked for more than once.
  const heights = new Map<string, number>();
  const height = (text: string, width: number, style: Style) => {
    if (text === '') return 0;
    const key = `${style.size} ${style.bold ?? false} ${width} ${text}`;
    const known = heights.get(key);
    if (known !== undefined) return known;
    const tall = set(style).heightOfString(level(text), { width, lineGap: style.size * TIGHTER });
    heights.set(key, tall);
    return tall;
  };
  return {
    width: pdf.page.width,
    bottom: pdf.page.height - MARGIN,
    height,
    write: (text, x, y, width, style) => {
      if (text === '') return 0;
      const tall = height(text, width, style);
      // The height is given so that the library never opens a page of its own.
      set(style).text(level(text), x, y, { width, height: tall + style.size, lineGap: style.size * TIGHTER });
      return tall;
    },
    box: (x, y, width, tall) => {
      pdf.rect(x, y, width, tall).stroke();
    },
    turn: () => {
      pdf.addPage();
      pdf.lineWidth(0.6);
    },
    finish: () => {
      pdf.end();
      return done;
    },
  };
}
