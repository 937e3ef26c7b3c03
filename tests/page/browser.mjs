// A real Chromium, one page, and the small words that the tests speak.
import { readFileSync, mkdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
const require = createRequire(join(root, 'web/package.json'));
const { chromium } = require('playwright-core');
const axeSource = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
const shots = join(root, 'build/page-shots');
mkdirSync(shots, { recursive: true });

const FLAGS = ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'];

export const launch = () => chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: FLAGS });

export class Visitor {
  constructor(page, name) {
    this.page = page;
    this.name = name;
    this.errors = [];
    // A busy machine is slow, not wrong.
    page.setDefaultTimeout(Number(process.env.AWLMARK_PAGE_TIMEOUT ?? 60_000));
    page.on('console', (message) => message.type() === 'error' && this.errors.push(message.text()));
    page.on('pageerror', (error) => this.errors.push(String(error)));
  }

  static async come(browser, name, options) {
    const context = await browser.newContext({ ...options, acceptDownloads: true });
    return new Visitor(await context.newPage(), name);
  }

  /** Until the field of the newest job is on the plan. */
  async settled() {
    await this.page.waitForSelector('canvas[aria-label*="the rest is fog"]', { timeout: 90_000 });
    await this.page.waitForFunction(() => !document.querySelector('.working'), undefined, { timeout: 90_000 });
  }

  async shot(what) {
    // Drawers slide in; a picture of half a drawer helps nobody.
    await this.page.waitForTimeout(250);
    await this.page.screenshot({ path: join(shots, `${this.name}-${what}.png`) });
  }

  /** Where an inch of the plan lies on the screen. */
  async pixelOf(x_in, y_in) {
    const canvas = this.page.locator('.plan canvas');
    const box = await canvas.boundingBox();
    const view = await canvas.evaluate((element) => ({ scale: Number(element.dataset.scale), x: Number(element.dataset.x), y: Number(element.dataset.y), flip: element.dataset.flip === '1' }));
    return { x: box.x + view.x + (view.flip ? -1 : 1) * view.scale * x_in, y: box.y + view.y - view.scale * y_in };
  }

  async touchPlan(x_in, y_in, touch) {
    const at = await this.pixelOf(x_in, y_in);
    if (touch) await this.page.touchscreen.tap(at.x, at.y);
    else await this.page.mouse.click(at.x, at.y);
  }

  /** Opens the invented laundry; always a copy. */
  async demo() {
    await this.page.getByRole('button', { name: /demo: Juniper/ }).click();
    await this.settled();
  }

  async screen(name) {
    await this.page.getByRole('navigation').getByRole('button', { name, exact: true }).click();
    // A stage's page is loaded when it is first asked for; the survey's on a phone stands behind its fold.
    if (name !== 'Survey') await this.page.waitForFunction((text) => [...document.querySelectorAll('main h2')].some((head) => head.textContent === text), name);
  }

  async marks() {
    return (await this.job()).marks;
  }

  /** The job as this browser keeps it. */
  async job() {
    return this.page.evaluate(async () => {
      const open = indexedDB.open('awlmark');
      const db = await new Promise((resolve, reject) => {
        open.onsuccess = () => resolve(open.result);
        open.onerror = () => reject(open.error);
      });
      const read = (store, key) =>
        new Promise((resolve) => {
          const ask = db.transaction(store).objectStore(store).get(key);
          ask.onsuccess = () => resolve(ask.result);
        });
      const last = await read('settings', 'last job');
      const kept = await read('jobs', last.value);
      db.close();
      return kept.history.job;
    });
  }

  /** A kept photo: how wide it is, and whether a camera's block is still in it. */
  async photo(sha256) {
    return this.page.evaluate(async (hash) => {
      const open = indexedDB.open('awlmark');
      const db = await new Promise((resolve) => (open.onsuccess = () => resolve(open.result)));
      const ask = db.transaction('photos').objectStore('photos').get(hash);
      const { blob } = await new Promise((resolve) => (ask.onsuccess = () => resolve(ask.result)));
      db.close();
      const bytes = new Uint8Array(await blob.arrayBuffer());
      const { width } = await createImageBitmap(blob);
      return { wide: width, exif: new TextDecoder('latin1').decode(bytes.subarray(0, 64)).includes('Exif') };
    }, sha256);
  }

  /** Colours on the plan inside the room, coarsely counted. */
  async coloursOf(x_in, y_in) {
    const at = await this.pixelOf(x_in, y_in);
    return this.page.evaluate(({ x, y }) => {
      const canvas = document.querySelector('.plan canvas');
      const box = canvas.getBoundingClientRect();
      const ratio = canvas.width / box.width;
      const data = canvas.getContext('2d').getImageData((x - box.left) * ratio - 4, (y - box.top) * ratio - 4, 9, 9).data;
      const sum = [0, 0, 0];
      for (let i = 0; i < data.length; i += 4) for (let k = 0; k < 3; k++) sum[k] += data[i + k] / 81;
      return sum;
    }, at);
  }

  async axe() {
    await this.page.waitForTimeout(200);
    if (!(await this.page.evaluate(() => 'axe' in window))) await this.page.evaluate(axeSource);
    const result = await this.page.evaluate(() => window.axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }));
    return result.violations.map((item) => `${item.id}: ${item.nodes.map((node) => node.target.join(' ')).join(', ')}`);
  }

  /** Controls that stick out of the screen, other than in a row that scrolls by itself. */
  async cutOff() {
    return this.page.evaluate(() =>
      [...document.querySelectorAll('button, input, select, h1, h2, p')]
        .filter((element) => element.checkVisibility() && !element.closest('.layers, nav, .unseen') && element.getClientRects().length > 0)
        .map((element) => ({ box: element.getBoundingClientRect(), name: element.getAttribute('aria-label') ?? element.textContent ?? element.tagName }))
        .filter(({ box }) => box.left < -1 || box.right > innerWidth + 1)
        .map(({ box, name }) => `${name.trim().slice(0, 30)} ${Math.round(box.left)}..${Math.round(box.right)}`),
    );
  }

  /** Controls on the screen that a glove would miss: under 56 px either way. */
  async smallTargets() {
    return this.page.evaluate(() =>
      [...document.querySelectorAll('button, a[href], input, select, summary, [role=button]')]
        .filter((element) => element.checkVisibility() && element.getClientRects().length > 0)
        .map((element) => ({ box: element.getBoundingClientRect(), name: element.getAttribute('aria-label') ?? element.textContent ?? element.tagName }))
        .filter(({ box }) => box.width > 1 && (box.height < 55.5 || box.width < 55.5))
        .map(({ box, name }) => `${name.trim().slice(0, 30)} ${Math.round(box.width)}x${Math.round(box.height)}`),
    );
  }
}
