// Pictures of every stage at both sizes, and of the three looks, for docs/pictures and for whoever looks.
//   node tests/page/pictures.mjs [INTO [DIST]]      INTO is docs/pictures, DIST web/dist
import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { launch, root, Visitor } from './browser.mjs';
import { serve } from './static.mjs';

const into = resolve(process.argv[2] ?? join(root, 'docs/pictures'));
const dist = resolve(process.argv[3] ?? join(root, 'web/dist'));
mkdirSync(into, { recursive: true });

const SIZES = {
  phone: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
  broad: { viewport: { width: 1280, height: 800 } },
};
const STAGES = ['Room', 'Survey', 'Hazards', 'Cut back', 'Floor', 'Shower', 'Drying', 'Take-off', 'Work', 'Price', 'Papers'];

/** Flat colours pack well as PNG; the plan's soft field packs better as JPEG. */
async function shot(page, name) {
  await page.waitForTimeout(400);
  await page.screenshot({ path: join(into, `${name}.jpg`), type: 'jpeg', quality: 72 });
}

async function stages(browser, url, size) {
  const visitor = await Visitor.come(browser, size, SIZES[size]);
  const { page } = visitor;
  await page.goto(url);
  await page.getByRole('button', { name: 'Describe my room' }).waitFor();
  if (size === 'phone') await shot(page, 'phone-start');
  await page.getByRole('button', { name: /demo:.*washroom/ }).click();
  await visitor.settled();
  for (const name of STAGES) {
    await visitor.screen(name);
    await page.locator('.answer, .advice').first().waitFor({ timeout: 240_000 });
    await page.waitForFunction(() => !document.querySelector('.reckoning'), undefined, { timeout: 240_000 });
    await shot(page, `${size}-${name.toLowerCase().replace(' ', '-')}`);
  }
  await page.context().close();
}

/** The mark sheet, the outline as it is walked, what is due, and the plan in the dark and in the sun. */
async function others(browser, url) {
  const visitor = await Visitor.come(browser, 'phone', SIZES.phone);
  const { page } = visitor;
  await page.goto(url);
  await visitor.demo();
  for (const theme of ['dark', 'sun']) {
    await page.evaluate((value) => localStorage.setItem('awlmark.theme', value), theme);
    await page.reload();
    await visitor.settled();
    await shot(page, `phone-${theme}`);
  }
  await page.evaluate(() => localStorage.setItem('awlmark.theme', 'light'));
  await page.reload();
  await visitor.settled();
  await page.locator('.due .what').tap();
  await shot(page, 'phone-due');
  await page.keyboard.press('Escape');
  await page.getByRole('dialog').waitFor({ state: 'hidden' });
  await visitor.touchPlan(54, 40, true);
  await page.getByRole('dialog').waitFor();
  await shot(page, 'phone-mark');
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Menu' }).tap();
  await page.getByRole('button', { name: 'New job' }).tap();
  await page.locator('[data-card="outline"] .card-head').tap();
  for (const key of ['8', 'feet', 'Wall goes right', '5', 'feet', 'Wall goes up', '2', 'feet', 'Wall goes left', '2', 'feet', '6']) await page.getByRole('button', { name: key, exact: true }).tap();
  await shot(page, 'phone-outline');
  await page.context().close();
}

const browser = await launch();
const server = await serve(() => dist);
for (const size of Object.keys(SIZES)) await stages(browser, server.url, size);
await others(browser, server.url);
await server.stop();
await browser.close();
