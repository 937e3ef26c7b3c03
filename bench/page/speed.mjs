// The page's three speeds, in Chromium: sixty marks to a first and to the full field; many marks, and one
// more than the document takes; the shell on a slow line. Needs web/dist (tools/page.sh).
//   node bench/page/speed.mjs            prints a table; nothing is asserted
// Figures are what the page itself measures (User Timing, web/src/engine/client.ts): from asking the
// survey's thread to its answer, JSON both ways. Medians of RUNS marks, each on top of the one before.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { launch, root, Visitor } from '../../tests/page/browser.mjs';
import { serve } from '../../tests/page/static.mjs';

const RUNS = 9;
// Slow 4G as Lighthouse has it: 150 ms a round trip, 1.6 Mbit/s down, 0.75 up.
const SLOW_4G = { offline: false, latency: 150, downloadThroughput: (1.6e6 / 8) * 0.9, uploadThroughput: (0.75e6 / 8) * 0.9 };

const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];
const ms = (value) => (value === undefined ? '-' : `${Math.round(value)} ms`);

/** The laundry with this many awl readings on its subfloor, scattered by the golden ratio: no two on one spot. */
function withMarks(count) {
  const job = JSON.parse(readFileSync(join(root, 'examples/laundry-1954.json'), 'utf8'));
  const [wide, high] = [108, 84];
  job.photos = [];
  job.openings = [];
  job.marks = Array.from({ length: count }, (_, i) => {
    const at = [2 + ((i * 0.6180339887) % 1) * (wide - 4), 2 + ((i * 0.7548776662) % 1) * (high - 4)].map((v) => Math.round(v * 2) / 2);
    const bad = Math.hypot(at[0] - 92, at[1] - 74) < 26;
    return { id: `n${i}`, at_in: at, layer: 'deck', tool: 'awl', reads: bad ? 'gone' : 'sound', from: 'above' };
  });
  return job;
}

async function open(page, job) {
  await page.getByRole('button', { name: 'Menu' }).click();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: /Open a job file/ }).click()]);
  await chooser.setFiles({ name: 'bench.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(job)) });
}

/** Spans of User Timing since the last call, by name. */
const spans = (page) =>
  page.evaluate(() => {
    const list = performance.getEntriesByType('measure').map(({ name, duration }) => ({ name, duration }));
    performance.clearMeasures();
    return list;
  });

async function fields(browser, url, count) {
  const visitor = await Visitor.come(browser, 'bench', { viewport: { width: 390, height: 844 }, hasTouch: true });
  const { page } = visitor;
  await page.goto(url);
  await visitor.demo();
  await open(page, withMarks(count));
  await page.locator(`canvas[aria-label*="${count} marks"]`).waitFor();
  await visitor.settled();
  await spans(page);
  const first = [];
  const full = [];
  for (let i = 0; i < RUNS; i++) {
    await visitor.touchPlan(20 + 7 * i, 12 + 3 * i, true);
    await page.getByRole('dialog').getByRole('button', { name: /^Sound/ }).tap();
    const held = page.getByRole('button', { name: 'It was open already' });
    await Promise.race([page.getByRole('dialog').waitFor({ state: 'hidden' }), held.waitFor().then(() => held.tap())]);
    await page.waitForFunction(() => !document.querySelector('.working'), undefined, { timeout: 120_000 });
    const surveys = (await spans(page)).filter((span) => span.name.startsWith('engine survey'));
    const quick = surveys.find((span) => span.name.endsWith('quick'));
    if (quick) first.push(quick.duration);
    full.push(surveys.at(-1).duration);
  }
  await page.context().close();
  return { first: first.length ? median(first) : undefined, full: median(full) };
}

async function many(browser, url, count) {
  const visitor = await Visitor.come(browser, 'bench', { viewport: { width: 390, height: 844 } });
  const { page } = visitor;
  await page.goto(url);
  await visitor.demo();
  await spans(page);
  await open(page, withMarks(count));
  const alert = page.locator('.alert');
  const answered = page.locator(`canvas[aria-label*="${count} marks"][aria-label*="the rest is fog"]`);
  await Promise.race([alert.waitFor({ timeout: 600_000 }), answered.waitFor({ timeout: 600_000 })]);
  const said = (await alert.count()) > 0 ? (await alert.locator('li').first().innerText()).trim() : undefined;
  if (!said) await page.waitForFunction(() => !document.querySelector('.working'), undefined, { timeout: 600_000 });
  const surveys = (await spans(page)).filter((span) => span.name.startsWith('engine survey'));
  await page.context().close();
  return { said, first: surveys.find((span) => span.name.endsWith('quick'))?.duration, full: surveys.at(-1)?.duration };
}

async function shell(browser, url) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, serviceWorkers: 'block' });
  const page = await context.newPage();
  const cdp = await context.newCDPSession(page);
  await cdp.send('Network.enable');
  await cdp.send('Network.emulateNetworkConditions', SLOW_4G);
  await page.goto(url, { waitUntil: 'commit' });
  await page.getByRole('button', { name: 'Describe my room' }).waitFor({ timeout: 120_000 });
  const usable = await page.evaluate(() => performance.now());
  const drawn = await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime);
  await context.close();
  return { drawn, usable };
}

const browser = await launch();
const server = await serve(() => join(root, 'web/dist'), 0, true);
const rows = [];
const { first, full } = await fields(browser, server.url, 60);
rows.push(['60 marks: first field', ms(first)], ['60 marks: full field', ms(full)]);
for (const count of [500, 2000]) {
  const found = await many(browser, server.url, count);
  rows.push([`${count} marks: first field`, ms(found.first)], [`${count} marks: full field`, found.said ?? ms(found.full)]);
}
rows.push(['2001 marks', (await many(browser, server.url, 2001)).said ?? 'answered, and should not have been']);
const drawn = await shell(browser, server.url);
rows.push(['slow 4G: shell drawn', ms(drawn.drawn)], ['slow 4G: first button', ms(drawn.usable)]);
for (const [what, value] of rows) console.log(`${what.padEnd(26)} ${value}`);
await server.stop();
await browser.close();
