// Two windows on one job; five hundred marks; a browser that has cleared its jobs.
import { Visitor } from './browser.mjs';

export async function windows({ browser, server, check, assert }) {
  const visitor = await Visitor.come(browser, 'windows', { viewport: { width: 1280, height: 800 } });
  const { page } = visitor;

  await check('windows: what one window marks stands in the other; both take marks in turn, none is lost', async () => {
    await page.goto(server.url);
    await visitor.demo();
    const second = new Visitor(await page.context().newPage(), 'windows2');
    await second.page.goto(server.url);
    await second.settled();
    const before = (await visitor.marks()).length;
    const mark = async (who, x, y, reads) => {
      await who.touchPlan(x, y, false);
      await who.page.getByRole('dialog').getByRole('button', { name: reads }).click();
      await who.page.getByRole('dialog').waitFor({ state: 'hidden' });
      await who.page.waitForTimeout(700);
    };
    await mark(visitor, 20, 30, /^Sound/);
    await second.page.getByText('Changed in another window').waitFor();
    await mark(second, 30, 20, /^Soft/);
    await mark(visitor, 60, 20, /^Sound/);
    const marks = await visitor.marks();
    assert.equal(marks.length, before + 3);
    assert.equal(new Set(marks.map((item) => item.id)).size, marks.length);
    await second.page.close();
  });

  await check('windows: five hundred marks are answered, the plan still takes a finger', async () => {
    await visitor.settled();
    const file = await page.evaluate(async () => {
      const open = indexedDB.open('awlmark');
      const db = await new Promise((resolve) => (open.onsuccess = () => resolve(open.result)));
      const read = (store, key) => new Promise((resolve) => { const ask = db.transaction(store).objectStore(store).get(key); ask.onsuccess = () => resolve(ask.result); });
      const { asked: _, ...job } = (await read('jobs', (await read('settings', 'last job')).value)).history.job;
      db.close();
      job.marks = Array.from({ length: 500 }, (_, i) => ({ id: `n${i}`, at_in: [2 + (i % 25) * 4.2, 2 + Math.floor(i / 25) * 4], layer: 'deck', tool: 'awl', reads: i % 25 > 18 && i > 300 ? 'soft' : 'sound', from: 'above' }));
      job.photos = [];
      return JSON.stringify({ ...job, format: 'awlmark-job', version: 1 });
    });
    await page.getByRole('button', { name: 'Menu' }).click();
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: /Open a job file/ }).click()]);
    await chooser.setFiles({ name: 'many.json', mimeType: 'application/json', buffer: Buffer.from(file) });
    await page.locator('canvas[aria-label*="500 marks"]').waitFor();
    // The coarse field comes first; the fine one follows when it is ready.
    await page.locator('canvas[aria-label*="500 marks"][aria-label*="the rest is fog"]').waitFor({ timeout: 180_000 });
    await visitor.shot('1-many');
    await visitor.touchPlan(50, 41, false);
    await page.getByRole('dialog').getByRole('button', { name: /^here: \d+ marks/ }).waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
  });

  await check('windows: jobs that this browser cleared are said', async () => {
    await page.goto(`${server.url}icon.svg`);
    await page.evaluate(() => new Promise((resolve) => { const gone = indexedDB.deleteDatabase('awlmark'); gone.onsuccess = gone.onblocked = resolve; }));
    await page.goto(server.url);
    await page.getByRole('alert').getByText(/has cleared \d+ job/).waitFor();
  });

  await check('windows: nothing went wrong out of sight', async () => assert.deepEqual(visitor.errors, []));
  await page.context().close();
}
