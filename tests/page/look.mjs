// Narrow, low, large text, forced colours, dark, sun: nothing is cut off, and axe has nothing to say.
import { Visitor } from './browser.mjs';

const LOOKS = [
  { name: 'narrow', viewport: { width: 320, height: 640 } },
  { name: 'landscape', viewport: { width: 844, height: 390 } },
  // Text at twice its size is the same as half the screen (WCAG 1.4.10).
  { name: 'zoomed', viewport: { width: 640, height: 400 }, deviceScaleFactor: 2 },
  { name: 'forced', viewport: { width: 390, height: 844 }, forcedColors: 'active' },
  { name: 'dark', viewport: { width: 390, height: 844 }, theme: 'dark' },
  { name: 'sun', viewport: { width: 390, height: 844 }, theme: 'sun', reducedMotion: 'reduce' },
];

export async function look({ browser, server, check, assert }) {
  for (const { name, theme, ...options } of LOOKS) {
    const visitor = await Visitor.come(browser, `look-${name}`, { hasTouch: true, ...options });
    const { page } = visitor;
    await check(`look: ${name}`, async () => {
      if (theme) await page.addInitScript((value) => localStorage.setItem('awlmark.theme', value), theme);
      await page.goto(server.url);
      await visitor.demo();
      const clean = async (what) => {
        assert.deepEqual(await visitor.cutOff(), [], `${name}, ${what} is cut off`);
        assert.deepEqual(await visitor.smallTargets(), [], `${name}, touch targets on ${what}`);
        // Forced colours are the system's own: contrast is not ours to judge there.
        if (name !== 'forced') assert.deepEqual(await visitor.axe(), [], `${name}, axe on ${what}`);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert.ok(wide <= 0, `${name}, ${what} scrolls sideways by ${wide}`);
      };
      await visitor.shot('1-plan');
      await clean('the plan');
      const plan = await page.locator('.plan canvas').boundingBox();
      assert.ok(plan.height > 90 && plan.width > 140, `${name}: the plan is ${plan.width} x ${plan.height}`);
      assert.ok(await page.getByRole('button', { name: '+ Mark', exact: true }).isVisible());
      await page.getByRole('button', { name: '+ Mark', exact: true }).tap();
      await page.getByRole('dialog').waitFor();
      await visitor.shot('2-sheet');
      await clean('the sheet');
      await page.keyboard.press('Escape');
      await page.getByRole('dialog').waitFor({ state: 'hidden' });
      await visitor.screen('Room');
      await page.locator('[data-card="outline"] .card-head').tap();
      await visitor.shot('3-room');
      await clean('the room');
    });
    await page.context().close();
  }

  const visitor = await Visitor.come(browser, 'look-keys', { viewport: { width: 1280, height: 800 } });
  await check('look: by keyboard alone, from the start to a mark', async () => {
    const { page } = visitor;
    await page.goto(server.url);
    await page.getByRole('button', { name: /demo: Juniper/ }).focus();
    await page.keyboard.press('Enter');
    await visitor.settled();
    const before = (await visitor.marks()).length;
    await page.getByRole('button', { name: '+ Mark', exact: true }).focus();
    await page.keyboard.press('Enter');
    const sheet = page.getByRole('dialog');
    await sheet.waitFor();
    await sheet.getByText('Place by numbers').focus();
    await page.keyboard.press('Enter');
    await sheet.getByLabel('From left', { exact: true }).focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type("4'");
    await sheet.getByLabel('From near wall').focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('2-6');
    await sheet.getByRole('button', { name: /^Sound/ }).focus();
    await page.keyboard.press('Enter');
    await sheet.waitFor({ state: 'hidden' });
    await page.waitForTimeout(500);
    const marks = await visitor.marks();
    assert.equal(marks.length, before + 1);
    assert.deepEqual(marks.at(-1).at_in, [48, 30]);
    assert.deepEqual(visitor.errors, []);
  });
  await visitor.page.context().close();
}
