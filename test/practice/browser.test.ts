// biome-ignore-all lint/performance/useDomNodeTextContent: what a person can see is what is tested.
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { HAS_BROWSER, HOW_TO_GET_IT, openBrowser, SHOTS, seriousFaults, sidewaysPx } from '../support/browser.ts';
import { practiceRoom } from '../support/practice-room.ts';

const NARROW = { width: 320, height: 640 };
/** The address of the first picture that has been drawn. */
const DRAWN = "[...document.images].find((each) => each.complete && each.naturalWidth > 400)?.currentSrc ?? ''";
const WIDE = { width: 1100, height: 800 };
/** What comes by itself comes when the machine has time for it; pictures stand back behind everything else. */
const IN_ITS_TIME = { timeout: 10_000 };

if (!HAS_BROWSER) process.stderr.write(`The tests of the practice room in a browser are left out: ${HOW_TO_GET_IT}\n`);

describe.skipIf(!HAS_BROWSER)('the practice room in a browser', () => {
  let room: Awaited<ReturnType<typeof practiceRoom>>;
  let browser: Awaited<ReturnType<typeof openBrowser>>;
  let page: Page;

  beforeAll(async () => {
    room = await practiceRoom();
    browser = await openBrowser();
    page = await browser.context.newPage();
    page.setDefaultTimeout(10_000);
    await page.goto(room.address);
  });
  afterAll(async () => {
    await browser.end();
    await room.end();
  });

  const last = () => page.locator('.sheet').last();
  const answer = () => last().locator('.answer').innerText();
  const shot = (name: string) => page.screenshot({ path: join(SHOTS, `${name}.png`) });

  /** Does something, and waits for the sheet that comes of it. */
  const answered = async (act: () => Promise<unknown>) => {
    const before = await page.locator('.sheet').count();
    await act();
    await page.locator('.sheet').nth(before).waitFor();
  };
  const type = (line: string) =>
    answered(async () => {
      await page.locator('#line').fill(line);
      await page.locator('#line').press('Enter');
    });
  const become = (role: string) => page.locator('#role').selectOption(role);

  it('hides its token once it is let in', () => {
    expect(page.url()).toBe(`http://127.0.0.1:${room.port}/`);
  });

  it('begins with three questions and a tour that goes away and stays away', async () => {
    expect(await page.locator('#ready button').count()).toBe(3);
    expect(await page.locator('#tour').innerText()).toContain('Step 1 of 5');
    await shot('practice-first');
    await page.getByRole('button', { name: 'Leave the tour' }).click();
    expect(await page.locator('#tour').isVisible()).toBe(false);
    await page.reload();
    await page.locator('#ready button').first().waitFor();
    expect(await page.locator('#tour').isVisible()).toBe(false);
  });

  it('gives the first answer after one click', async () => {
    await answered(() => page.getByRole('button', { name: 'A hill-country hardtail' }).click());
    expect(await answer()).toContain('32T');
    expect(await page.locator('#status').innerText()).toBe(await answer());
    expect(await last().locator('.foot').innerText()).toMatch(/Code #[0-9A-Z]{8}/);
    expect(await last().locator('.caution').first().innerText()).toMatch(/^(STOP|Take care): /);
    await shot('practice-desktop-light');
  });

  it('is as easily asked by keyboard alone', async () => {
    await page.reload();
    await page.locator('#ready button').first().waitFor();
    await answered(async () => {
      for (let tabs = 0; tabs < 12; tabs += 1) {
        await page.keyboard.press('Tab');
        if ((await page.evaluate('document.activeElement.textContent')) === 'A hill-country hardtail') break;
      }
      await page.keyboard.press('Enter');
    });
    // Reading goes on in the answer.
    expect(await page.evaluate('document.activeElement.textContent')).toBe(await answer());
  });

  it('opens a part with its picture, whose words say the same', async () => {
    await last().locator('[data-part=gears] summary').click();
    const picture = last().locator('[data-part=gears] img');
    await picture.scrollIntoViewIfNeeded();
    expect((await picture.getAttribute('alt'))?.length).toBeGreaterThan(60);
    await expect.poll(() => page.evaluate(DRAWN), IN_ITS_TIME).toMatch(/theme=light/);
    await shot('practice-gears-light');
    await page.emulateMedia({ colorScheme: 'dark' });
    await expect.poll(() => page.evaluate(DRAWN), IN_ITS_TIME).toMatch(/theme=dark/);
    await shot('practice-gears-dark');
    await page.emulateMedia({ colorScheme: 'light' });
    await last().locator('[data-part=why] summary').click();
    expect(await last().locator('[data-part=why]').innerText()).toContain('with your numbers');
  });

  it('has no serious fault for whoever uses a screen reader, light or dark', async () => {
    await page.evaluate("document.querySelectorAll('details.part').forEach((each) => { each.open = true; })");
    expect(await seriousFaults(page)).toEqual([]);
    await page.emulateMedia({ colorScheme: 'dark' });
    expect(await seriousFaults(page)).toEqual([]);
    await page.emulateMedia({ colorScheme: 'light' });
    await page.evaluate("document.querySelectorAll('details.part').forEach((each) => { each.open = false; })");
  });

  it('goes on with the same bike, by a button and by typing', async () => {
    await answered(() => last().getByRole('button', { name: 'Hills' }).click());
    expect(await page.locator('#going-on').innerText()).toMatch(/Going on with #/);
    await type('what about 34?');
    expect(await answer()).toContain('34T');
    await answered(async () => {
      await last().getByLabel('Another ring').selectOption({ index: 0 });
      await last().getByRole('button', { name: 'Look at it' }).click();
    });
    expect(await last().innerText()).toContain('36/22');
  });

  it('completes by keyboard alone', async () => {
    const line = page.locator('#line');
    await line.focus();
    await page.keyboard.type('gear');
    await page.locator('#completions [role=option]').first().waitFor();
    await shot('practice-completion');
    await page.keyboard.press('ArrowDown');
    expect(await line.getAttribute('aria-activedescendant')).toBe('completion-0');
    expect(await seriousFaults(page)).toEqual([]);
    await page.keyboard.press('Enter');
    expect(await line.inputValue()).toBe('gears ');
    await page.keyboard.type('ter');
    await page.locator('#completions').getByRole('option', { name: 'terrain=' }).waitFor();
    await page.keyboard.press('Escape');
    expect(await line.getAttribute('aria-expanded')).toBe('false');
    await line.fill('');
  });

  it('asks whoever knows nothing, with answers to press', async () => {
    await answered(() => page.getByRole('button', { name: 'I know nothing about my bike' }).click());
    await answered(() => last().getByRole('button', { name: '36/22' }).click());
    await answered(() => last().getByRole('button', { name: '11-36' }).click());
    expect(await answer()).toMatch(/\d\dT/);
  });

  it('says why something cannot fit, and gives the words back to be put right', async () => {
    await answered(() => page.getByRole('button', { name: 'This cannot fit' }).click());
    expect(await answer()).toContain('97.6 mm');
    await shot('practice-refusal');
    await last().getByRole('button', { name: 'Correct my words' }).click();
    expect(await page.locator('#line').inputValue()).toContain('26T');
    await page.locator('#line').fill('');
  });

  it('refuses a member who pins, lets a moderator, and has a second one approve', async () => {
    const pin = 'answer pin hill-rings text="32 suits our hills."';
    await become('member');
    await type(pin);
    expect(await answer()).toContain('for the moderators');
    await become('moderator');
    await type(pin);
    expect(await answer()).toContain('waits for a second moderator');
    const approve = () => answered(() => last().getByRole('button', { name: 'Approve' }).click());
    await approve();
    expect(await answer()).toContain('a second person must approve');
    await become('second-moderator');
    await type('answer drafts');
    await answered(() =>
      last()
        .getByRole('button', { name: /hill-rings/ })
        .first()
        .click(),
    );
    if (!/version 1/.test(await answer())) await approve();
    await become('member');
    await type('answer show hill-rings');
    expect(await last().innerText()).toContain('32 suits our hills.');
  });

  it('has a row signed by two', async () => {
    await become('mechanic');
    await type(
      'job open title="Hill hardtail" 2x10 36/22 11-36 29er hardtail 104bcd ring=32 cranktype=pinch boltmaterial=aluminium',
    );
    const sign = async (button: string) => {
      await last().getByRole('button', { name: button, exact: true }).click();
      await last().getByLabel('Value set (needed)').fill('13.5');
      await last().getByLabel('Wrench used (needed)').fill('A1');
      await shot('practice-signing');
      await answered(() => last().getByRole('button', { name: 'Do it' }).click());
    };
    await sign('Tick 3');
    await sign('Second check 3');
    expect(await answer()).toContain("must be somebody else's");
    await become('second-mechanic');
    await type('job show 1');
    await sign('Second check 3');
    expect(await last().innerText()).toContain('Two people have signed it.');
    await shot('practice-sign-off');
  });

  it('fills in a form for whoever does not like lines', async () => {
    await become('member');
    await page.locator('#line').fill('half a thought');
    await page.locator('#forms summary').click();
    await page.locator('#form-choice').selectOption({ label: (await formLabel('chain:')) ?? '' });
    const form = page.locator('#form-place');
    await form.getByLabel('Single ring wanted').fill('32');
    await form.getByLabel('Cassette fitted now').fill('11-36');
    await form.getByLabel('Chainstay').fill('440');
    await answered(() => form.getByRole('button', { name: 'Ask' }).click());
    expect(await answer()).toMatch(/106 pitches/);
    expect(await page.locator('#line').inputValue()).toBe('half a thought');
    await page.locator('#line').fill('');
  });
  const formLabel = async (begins: string) =>
    (await page.locator('#form-choice option').allInnerTexts()).find((each) => each.startsWith(begins));

  it('shows what would be sent', async () => {
    await last().getByRole('button', { name: 'What would be sent' }).click();
    expect(await page.locator('#sent pre').first().innerText()).toContain('106 pitches');
    await shot('practice-sent');
    expect(await seriousFaults(page)).toEqual([]);
    await page.keyboard.press('Escape');
    expect(await page.locator('#sent').isVisible()).toBe(false);
  });

  it('treats what somebody hides in a name as text', async () => {
    await type('bike save "<img src=x onerror=alert(1)>" 2x10 36/22 11-36');
    expect(await last().innerText()).toContain('<img src=x');
    expect(await last().locator('img').count()).toBe(0);
  });

  it('does not move sideways at 320 pixels, whatever is open', async () => {
    await page.setViewportSize(NARROW);
    await page.reload();
    await page.getByRole('button', { name: 'Tour' }).click();
    await shot('practice-320-first');
    expect(await sidewaysPx(page)).toBe(0);
    await page.getByRole('button', { name: 'Leave the tour' }).click();
    await answered(() => page.getByRole('button', { name: 'A hill-country hardtail' }).click());
    await shot('practice-320-light');
    await page.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })");
    expect(await sidewaysPx(page)).toBe(0);
    await shot('practice-320-form');
    await page.evaluate("document.getElementById('forms').open = false");
    await last().locator('[data-part=gears]').scrollIntoViewIfNeeded();
    await page.emulateMedia({ colorScheme: 'dark' });
    await shot('practice-320-dark');
    expect(await seriousFaults(page)).toEqual([]);
    await page.emulateMedia({ colorScheme: 'light' });
    await page.setViewportSize(WIDE);
  });

  it('can be walked through by the tour alone', async () => {
    await page.getByRole('button', { name: 'Tour' }).click();
    for (const step of [1, 2, 3, 4, 5]) {
      await expect.poll(() => page.locator('#tour h2').innerText(), IN_ITS_TIME).toContain(`Step ${step} of 5`);
      const does = page.locator('#tour').getByRole('button', { name: 'Do it for me' });
      if ((await does.count()) > 0) {
        await answered(() => does.click());
        expect(await last().getAttribute('class')).not.toContain('refused');
        // The next step comes by itself, below the answer.
        if (step < 5) continue;
      }
      await page
        .locator('#tour')
        .getByRole('button', { name: step < 5 ? 'Next step' : 'Finish' })
        .click();
    }
  });

  it('erases what was tried, after asking', async () => {
    await page.getByRole('button', { name: 'Erase practice data' }).click();
    await page.getByRole('button', { name: 'Erase it' }).click();
    await page.getByText('The practice data is erased.').first().waitFor();
    await type('answer show hill-rings');
    expect(await last().getAttribute('class')).toContain('refused');
  });

  it('never complains to the console, and broke nothing behind it', () => {
    expect(browser.complaints).toEqual([]);
    expect(room.faults).toEqual([]);
  });
});
