import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';

/** Where Debian puts its browser; another one may be named. */
const BROWSER = process.env.RINGWRIGHT_BROWSER ?? '/usr/bin/chromium';

/** Whether there is a browser to test with; a test command installs nothing by itself. */
export const HAS_BROWSER = existsSync(BROWSER);

export const HOW_TO_GET_IT = `no browser at ${BROWSER}: apt-get install chromium, or name one in RINGWRIGHT_BROWSER`;

/** Where pictures of the page are left, to be looked at. */
export const SHOTS = process.env.RINGWRIGHT_SHOTS ?? join(tmpdir(), 'ringwright-screenshots');

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** A browser with an empty profile; `complaints` is what the pages say to the console when something is wrong. */
export async function openBrowser(): Promise<{
  readonly context: BrowserContext;
  readonly complaints: readonly string[];
  readonly end: () => Promise<void>;
}> {
  const { chromium } = await import('playwright-core');
  const profile = mkdtempSync(join(tmpdir(), 'ringwright-browser-'));
  mkdirSync(SHOTS, { recursive: true });
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: BROWSER,
    headless: true,
    args: FLAGS,
    viewport: { width: 1100, height: 800 },
    reducedMotion: 'reduce',
    colorScheme: 'light',
  });
  const complaints: string[] = [];
  context.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  context.on('weberror', (error) => complaints.push(error.error().message));
  return {
    context,
    complaints,
    end: async () => {
      await context.close();
      rmSync(profile, { recursive: true, force: true });
    },
  };
}

type Violation = {
  readonly id: string;
  readonly impact: string | null;
  readonly nodes: readonly { readonly html: string }[];
};

/** What an accessibility checker finds serious or critical, each as one line. */
export async function seriousFaults(page: Page): Promise<readonly string[]> {
  const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  await page.evaluate(source);
  const found: { readonly violations: readonly Violation[] } = await page.evaluate('axe.run()');
  return found.violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
}

/** How far a page can be moved sideways, in pixels. */
export async function sidewaysPx(page: Page): Promise<number> {
  return page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth');
}
