// 390 x 844, fingers.
import { Visitor } from './browser.mjs';

const SPOT = [54, 40];

function percents(text) {
  return [...text.matchAll(/(under |over )?(\d+)%/g)].map((found) => Number(found[2]) + (found[1] === 'under ' ? -0.5 : found[1] === 'over ' ? 0.5 : 0));
}

export async function phone({ browser, server, check, assert }) {
  const visitor = await Visitor.come(browser, 'phone', { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 });
  const { page } = visitor;
  const note = page.getByRole('status', { name: 'What changed' });
  const clean = async (what) => {
    assert.deepEqual(await visitor.axe(), [], `axe on ${what}`);
    assert.deepEqual(await visitor.smallTargets(), [], `touch targets on ${what}`);
    assert.deepEqual(await visitor.cutOff(), [], `${what} is cut off`);
  };
  let fieldBefore;
  let colourBefore;
  let marksBefore;

  await check('phone: opens the demo job and draws its field', async () => {
    await page.goto(server.url);
    await visitor.settled();
    assert.match(await page.locator('h1').innerText(), /invented/i);
    const near = await visitor.coloursOf(82, 70);
    const far = await visitor.coloursOf(40, 20);
    const apart = Math.hypot(...near.map((value, k) => value - far[k]));
    assert.ok(apart > 60, `the field looks alike at the leak and far from it: ${near} ${far}`);
    fieldBefore = await page.locator('.plan canvas').getAttribute('aria-label');
    colourBefore = await visitor.coloursOf(...SPOT);
    marksBefore = (await visitor.marks()).length;
    await visitor.shot('1-plan');
    await clean('the plan');
  });

  await check('phone: a finger adds an awl mark and the new field shows it', async () => {
    await visitor.touchPlan(...SPOT, true);
    const sheet = page.getByRole('dialog');
    await sheet.waitFor();
    await visitor.shot('2-sheet');
    await clean('the sheet');
    await sheet.getByRole('button', { name: /^Gone/ }).tap();
    await note.waitFor({ timeout: 60_000 });
    await visitor.settled();
    const [was, is] = percents(await note.innerText());
    assert.ok(is > was && is >= 50, `the chance at the spot went from ${was} to ${is}`);
    const colour = await visitor.coloursOf(SPOT[0] + 6, SPOT[1]);
    assert.notDeepEqual(colour, colourBefore);
    assert.notEqual(await page.locator('.plan canvas').getAttribute('aria-label'), fieldBefore);
    const marks = await visitor.marks();
    assert.equal(marks.length, marksBefore + 1);
    const { at_in, tool, reads, layer } = marks.at(-1);
    assert.deepEqual({ tool, reads, layer }, { tool: 'awl', reads: 'gone', layer: 'deck' });
    assert.ok(Math.hypot(at_in[0] - SPOT[0], at_in[1] - SPOT[1]) < 2, `the mark lies at ${at_in}`);
    await visitor.shot('3-changed');
    await clean('the plan with its note');
  });

  await check('phone: undo brings back the field, redo the mark', async () => {
    await page.getByRole('button', { name: /^Undo: awl gone/ }).tap();
    await visitor.settled();
    assert.equal(await page.locator('.plan canvas').getAttribute('aria-label'), fieldBefore);
    const colour = await visitor.coloursOf(...SPOT);
    assert.ok(Math.hypot(...colour.map((value, k) => value - colourBefore[k])) < 3, `the colour at the spot is ${colour}, was ${colourBefore}`);
    assert.equal((await visitor.marks()).length, marksBefore);
    await page.getByRole('button', { name: /^Do again/ }).tap();
    await visitor.settled();
    assert.equal((await visitor.marks()).length, marksBefore + 1);
  });

  await check('phone: a reload keeps the job and its steps', async () => {
    await page.reload();
    await visitor.settled();
    assert.equal((await visitor.marks()).length, marksBefore + 1);
    assert.ok(await page.getByRole('button', { name: /^Undo: awl gone/ }).isEnabled());
  });

  await check('phone: the same by numbers, without the canvas', async () => {
    await page.getByRole('button', { name: 'Mark by numbers' }).tap();
    const sheet = page.getByRole('dialog');
    await sheet.getByLabel('From left').fill('not a length');
    await sheet.getByRole('button', { name: /^Sound/ }).tap();
    assert.match(await sheet.innerText(), /Write a length/);
    await sheet.getByLabel('From left').fill('7\' 4 1/2"');
    await sheet.getByLabel('From bottom').fill('1-6');
    await sheet.getByRole('button', { name: 'Meter', exact: true }).tap();
    await sheet.getByLabel('Moisture').fill('18.5');
    await visitor.shot('4-meter');
    await sheet.getByRole('button', { name: 'Save reading' }).tap();
    await note.waitFor({ timeout: 60_000 });
    await visitor.settled();
    const mark = (await visitor.marks()).at(-1);
    assert.deepEqual(mark.at_in, [88.5, 18]);
    assert.equal(mark.mc_percent, 18.5);
    assert.equal(mark.tool, 'meter');
  });

  await check('phone: a mark on a joist, from below, by its look', async () => {
    await page.getByRole('button', { name: 'framing', exact: true }).tap();
    await visitor.shot('5-framing');
    await visitor.touchPlan(53, 30, true);
    const sheet = page.getByRole('dialog');
    await sheet.getByRole('button', { name: 'From below' }).tap();
    await sheet.getByRole('button', { name: 'Eye', exact: true }).tap();
    await visitor.shot('6-eye');
    await sheet.getByRole('button', { name: /^Stained/ }).tap();
    await page.waitForFunction(() => !document.querySelector('.working'), undefined, { timeout: 60_000 });
    const mark = (await visitor.marks()).at(-1);
    assert.deepEqual({ support: mark.support, from: mark.from, reads: mark.reads, tool: mark.tool }, { support: 'j4', from: 'below', reads: 'stained', tool: 'eye' });
    await page.getByRole('button', { name: 'deck', exact: true }).tap();
    await visitor.settled();
  });

  await check('phone: two fingers zoom about their middle, one finger pans', async () => {
    const canvas = page.locator('.plan canvas');
    const box = await canvas.boundingBox();
    const cdp = await page.context().newCDPSession(page);
    const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    const scale = async () => Number(await canvas.getAttribute('data-scale'));
    const before = await scale();
    const fingers = (d) => [
      { x: middle.x - d, y: middle.y, id: 1 },
      { x: middle.x + d, y: middle.y, id: 2 },
    ];
    await cdp.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: fingers(40) });
    for (let d = 44; d <= 100; d += 8) await cdp.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: fingers(d) });
    await cdp.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    const zoomed = await scale();
    assert.ok(zoomed > before * 1.6 && zoomed < before * 4, `scale went from ${before} to ${zoomed}`);
    const x = Number(await canvas.getAttribute('data-x'));
    await cdp.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [{ ...middle, id: 1 }] });
    for (let d = 10; d <= 60; d += 10) await cdp.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: [{ x: middle.x + d, y: middle.y, id: 1 }] });
    await cdp.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    assert.ok(Math.abs(Number(await canvas.getAttribute('data-x')) - x - 60) < 15, 'the plan followed the finger');
    assert.equal(await page.getByRole('dialog').count(), 0, 'a drag is not a tap');
    await visitor.shot('7-zoomed');
    await page.getByRole('button', { name: 'Whole room' }).tap();
    assert.ok(Math.abs((await scale()) - before) < 1e-3);
  });

  await check('phone: lists of marks and openings; a mark can be changed and taken away', async () => {
    await visitor.screen('Marks');
    await visitor.shot('8-marks');
    await clean('the marks');
    const count = (await visitor.marks()).length;
    await page.locator('.rows button').first().tap();
    await page.getByRole('dialog').getByRole('button', { name: 'Take this mark away' }).tap();
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
    await page.waitForFunction((n) => document.querySelector('h2').textContent.includes(`(${n})`), count - 1);
    await visitor.screen('Next');
    await page.locator('.openings li, .stop').first().waitFor({ timeout: 60_000 });
    assert.match(await page.locator('.pane').innerText(), /Worth \$|Stop opening/);
    await visitor.shot('9-next');
    await clean('the next openings');
  });

  await check('phone: findings in words, with their reasons', async () => {
    await visitor.screen('Findings');
    await page.getByRole('heading', { name: 'Price' }).waitFor({ timeout: 120_000 });
    const text = await page.locator('.pane').innerText();
    assert.match(text, /What must be true first/);
    assert.match(text, /\$[\d,]+ to \$[\d,]+/);
    await visitor.shot('10-findings');
    await clean('the findings');
  });

  await check('phone: papers open, without a script in them', async () => {
    await visitor.screen('Papers');
    await page.locator('.rows button').first().tap({ timeout: 120_000 });
    const frame = page.frameLocator('iframe');
    await frame.locator('svg').first().waitFor();
    assert.ok((await frame.locator('body').innerText()).length > 500);
    await visitor.shot('11-paper');
    assert.deepEqual(await visitor.smallTargets(), []);
    await page.getByRole('dialog').getByRole('button', { name: 'Close' }).tap();
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
    await clean('the papers');
  });

  await check('phone: the menu; a broken file shows each problem, a good one opens, saving gives it back', async () => {
    const menu = page.getByRole('button', { name: 'Menu' });
    await menu.tap();
    await page.getByRole('dialog').waitFor();
    await visitor.shot('12-menu');
    await clean('the menu');
    const choose = async (text) => {
      const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: 'Open a job file' }).tap()]);
      await chooser.setFiles({ name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(text) });
    };
    await choose('{"format":"awlmark-job","version":1,"room":{"outline_in":[[0,0],[60,0],[60,60]]},"marks":[{"id":"a","tool":"owl"}]}');
    const alert = page.getByRole('alert');
    await alert.waitFor();
    assert.match(await alert.innerText(), /marks\[0\]\.tool/);
    await visitor.shot('13-problems');
    await alert.getByRole('button', { name: 'Close' }).tap();
    await menu.tap();
    await choose('{"format":"awlmark-job","version":1,"job":{"name":"Three walls"},"room":{"outline_in":[[0,0],["8 ft",0],["8 ft","5\' 6\\""],[0,66]]},"layers":[{"id":"deck","material":"plywood"}]}');
    await page.waitForFunction(() => document.querySelector('h1').textContent === 'Three walls');
    await menu.tap();
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save this job' }).tap()]);
    assert.equal(download.suggestedFilename(), 'three-walls.json');
    const stream = await download.createReadStream();
    let text = '';
    for await (const part of stream) text += part;
    assert.deepEqual(JSON.parse(text).room.outline_in, [[0, 0], [96, 0], [96, 66], [0, 66]]);
    await page.getByRole('dialog').getByRole('button', { name: 'Close' }).tap();
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
  });

  await check('phone: nothing went wrong out of sight', async () => assert.deepEqual(visitor.errors, []));
  await page.context().close();
}
