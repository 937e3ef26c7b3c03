// The office that serves the page (`awlmark serve --data`): two devices on one floor, each offline of the
// other, and both marks and the photo end up on both. Needs build/release/awlmark.
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root, Visitor } from './browser.mjs';

async function started(dist, data) {
  const port = await new Promise((resolve) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const { port: free } = probe.address();
      probe.close(() => resolve(free));
    });
  });
  const office = spawn(process.env.AWLMARK ?? join(root, 'build/release/awlmark'), ['serve', '--data', data, '--port', String(port), '--dir', dist], { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  const url = await new Promise((resolve, reject) => {
    const hear = (chunk) => {
      said += chunk;
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(said);
      if (found) resolve(`${found[0]}/`);
    };
    office.stdout.on('data', hear);
    office.stderr.on('data', hear);
    office.on('exit', (code) => reject(new Error(`the office ended (${code}): ${said}`)));
  });
  return { url, stop: () => new Promise((done) => { office.removeAllListeners('exit'); office.on('exit', done); office.kill('SIGTERM'); }) };
}

export async function office({ browser, dist, check, assert }) {
  const folder = mkdtempSync(join(tmpdir(), 'awlmark-office-'));
  const served = await started(dist, join(folder, 'office.db'));
  const come = (name) => Visitor.come(browser, name, { viewport: { width: 1280, height: 800 } });
  const one = await come('office-one');
  const two = await come('office-two');
  const menu = async (who, button) => {
    await who.page.getByRole('button', { name: 'Menu' }).click();
    const look = who.page.getByRole('button', { name: 'Look for the office' });
    await Promise.race([look.waitFor().then(() => look.click()), who.page.getByText(/^Paired as/).waitFor()]);
    await who.page.getByText(/^Paired as/).waitFor();
    if (button) await who.page.getByRole('button', { name: button }).click();
  };
  const close = (who) => who.page.getByRole('dialog').getByRole('button', { name: 'Close' }).click();
  const mark = async (who, x, y) => {
    await who.touchPlan(x, y, false);
    await who.page.getByRole('dialog').getByRole('button', { name: /^Sound/ }).click();
    await who.page.getByRole('dialog').waitFor({ state: 'hidden' });
    await who.settled();
  };

  await check('office: a job goes there and opens on another device', async () => {
    await one.page.goto(served.url);
    await one.demo();
    await menu(one, /^Send this job/);
    await one.page.getByText(/Sent: revision 1/).waitFor();
    await close(one);
    await two.page.goto(served.url);
    await two.page.getByRole('button', { name: 'Menu' }).click();
    await two.page.getByRole('button', { name: 'Look for the office' }).click();
    await two.page.getByRole('button', { name: /^juniper-lane-laundry/ }).click();
    await two.settled();
    assert.deepEqual((await two.job()).marks, (await one.job()).marks);
  });

  await check('office: two devices mark one floor; both marks are on both', async () => {
    const before = (await one.marks()).length;
    await mark(one, 20, 30);
    await mark(two, 60, 20);
    await menu(one, /^Send this job/);
    await one.page.getByText(/Sent: revision/).waitFor();
    await close(one);
    await menu(two, /^Send this job/);
    await two.page.getByText(/both are put together/).waitFor();
    await close(two);
    await menu(one, /^Send this job/);
    await one.page.waitForFunction(() => /both are put together|Sent: revision/.test(document.querySelector('dialog[open]')?.textContent ?? ''));
    await close(one);
    await one.page.waitForTimeout(800);
    for (const who of [one, two]) assert.equal((await who.marks()).length, before + 2, who.name);
  });

  await check('office: nothing went wrong out of sight', async () => assert.deepEqual([...one.errors, ...two.errors], []));
  await one.page.context().close();
  await two.page.context().close();
  await served.stop();
  rmSync(folder, { recursive: true });
}
