// 1280 x 800, mouse and keyboard.
import { Visitor } from './browser.mjs';

export async function broad({ browser, server, check, assert }) {
  const visitor = await Visitor.come(browser, 'broad', { viewport: { width: 1280, height: 800 } });
  const { page } = visitor;

  await check('broad: the plan stands beside its lists', async () => {
    await page.goto(server.url);
    await visitor.demo();
    assert.ok(await page.locator('.plan canvas').isVisible());
    assert.ok(await page.locator('.section.tall').isVisible());
    assert.ok(await page.getByRole('heading', { name: 'Where to look next' }).isVisible());
    await visitor.shot('1-plan');
    assert.deepEqual(await visitor.axe(), []);
    assert.deepEqual(await visitor.smallTargets(), []);
  });

  await check('broad: a click adds a mark, the keyboard takes it back', async () => {
    const before = (await visitor.marks()).length;
    await visitor.touchPlan(54, 40, false);
    await page.getByRole('dialog').getByRole('button', { name: /^Sound/ }).click();
    await page.getByRole('status', { name: 'What changed' }).waitFor({ timeout: 60_000 });
    assert.equal((await visitor.marks()).length, before + 1);
    await visitor.shot('2-changed');
    await page.getByRole('button', { name: /^Undo: awl sound/ }).focus();
    await page.keyboard.press('Enter');
    await visitor.settled();
    assert.equal((await visitor.marks()).length, before);
  });

  await check('broad: other questions, other layers, the other demo', async () => {
    await page.getByRole('button', { name: /^Unsound/ }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Wet', exact: true }).click();
    await visitor.shot('3-key');
    await page.getByRole('dialog').getByRole('button', { name: 'Close' }).click();
    await visitor.shot('3-wet');
    assert.match(await page.locator('.plan canvas').getAttribute('aria-label'), /chance of wet/);
    await page.getByRole('button', { name: 'Menu' }).click();
    await page.getByRole('button', { name: /washroom/ }).click();
    await page.waitForFunction(() => /washroom/.test(document.querySelector('h1').textContent));
    await visitor.settled();
    await visitor.shot('4-washroom');
    await visitor.screen('Room');
    await visitor.shot('5-room');
    for (const name of ['Hazards', 'Cut back', 'Floor', 'Shower', 'Drying', 'Take-off', 'Work', 'Price', 'Papers']) {
      await visitor.screen(name);
      await page.locator('.answer').waitFor({ timeout: 180_000 });
      await page.waitForTimeout(150);
      await visitor.shot(`6-${name.toLowerCase().replace(' ', '-')}`);
    }
    assert.deepEqual(await visitor.axe(), []);
  });

  await check('broad: nothing went wrong out of sight', async () => assert.deepEqual(visitor.errors, []));
  await page.context().close();
}
