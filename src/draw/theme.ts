export type ThemeName = 'light' | 'dark';

/** The few colours of a picture. Shape and label carry the meaning; the accent only helps the eye along. */
export type Theme = {
  readonly paper: string;
  readonly ink: string;
  readonly quiet: string;
  readonly accent: string;
  readonly hatch: string;
};

export const THEMES: Readonly<Record<ThemeName, Theme>> = {
  light: { paper: '#f8f6f0', ink: '#1b2026', quiet: '#515a62', accent: '#a1380f', hatch: '#a9aeb0' },
  dark: { paper: '#15191d', ink: '#ecebe6', quiet: '#a8b0b7', accent: '#ffab7d', hatch: '#59626a' },
};

/** The typeface of every picture; the renderer brings the font itself. */
export const FONT_FAMILY = 'Barlow Semi Condensed';
