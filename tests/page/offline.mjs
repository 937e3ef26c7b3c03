// No signal: the server is stopped, not only the browser's switch thrown. Then a newer build comes.
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Visitor } from './browser.mjs';
import { serve } from './static.mjs';

export async function offline({ browser, dist, check, assert }) {
  let root = dist;
  let server = await serve(() => root);
  const visitor = await Visitor.come(browser, 'offline', { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  const { page } = visitor;

  await check('offline: the page opens and reckons with the server stopped', async () => {
    await page.goto(server.url);
    await visitor.demo();
    await page.evaluate(() => navigator.serviceWorker.ready);
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    await server.stop();
    await page.reload();
    await visitor.settled();
    const before = (await visitor.marks()).length;
    await visitor.touchPlan(54, 40, true);
    await page.getByRole('dialog').getByRole('button', { name: /^Soft/ }).tap();
    await page.getByRole('status', { name: 'What changed' }).waitFor({ timeout: 60_000 });
    assert.equal((await visitor.marks()).length, before + 1);
    await visitor.shot('1-no-server');
    // In mid-job: the papers too come without a server, from the module that nobody had loaded yet.
    await page.reload();
    await visitor.settled();
    assert.equal((await visitor.marks()).length, before + 1);
    await visitor.screen('Papers');
    await page.locator('.rows .row').first().waitFor({ timeout: 240_000 });
    await visitor.screen('Survey');
  });

  const newer = mkdtempSync(join(tmpdir(), 'awlmark-newer-'));
  await check('offline: a newer build waits until the person takes it, then the old one is gone', async () => {
    cpSync(dist, newer, { recursive: true });
    writeFileSync(join(newer, 'index.html'), readFileSync(join(newer, 'index.html'), 'utf8').replace('<title>Awlmark</title>', '<title>Awlmark, newer</title>'));
    writeFileSync(join(newer, 'sw.js'), readFileSync(join(newer, 'sw.js'), 'utf8').replace(/"awlmark-[0-9a-f]+"/, '"awlmark-newer"'));
    root = newer;
    server = await serve(() => root, server.port);
    await page.reload();
    await visitor.settled();
    assert.equal(await page.title(), 'Awlmark');
    await page.evaluate(() => navigator.serviceWorker.getRegistration().then((registration) => registration.update()));
    await page.getByRole('button', { name: 'Menu' }).tap();
    await page.getByRole('button', { name: 'Take the newer version' }).tap({ timeout: 30_000 });
    await page.waitForFunction(() => document.title === 'Awlmark, newer', undefined, { timeout: 30_000 });
    await visitor.settled();
    assert.deepEqual(await page.evaluate(() => caches.keys()), ['awlmark-newer']);
  });
  rmSync(newer, { recursive: true });
  await server.stop();
  await page.context().close();
}
