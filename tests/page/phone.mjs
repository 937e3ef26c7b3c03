// 390 x 844, fingers: the demo, marks, lists, stages, papers, files.
import { Visitor } from './browser.mjs';

const SPOT = [54, 40];

function percents(text) {
  return [...text.matchAll(/(under |over )?(\d+)%/g)].map((found) => Number(found[2]) + (found[1] === 'under ' ? -0.5 : found[1] === 'over ' ? 0.5 : 0));
}

export async function phone({ browser, server, check, assert }) {
  const visitor = await Visitor.come(browser, 'phone', { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 });
  const { page } = visitor;
  const note = page.getByRole('status', { name: 'What changed' });
  const sheet = page.getByRole('dialog');
  const canvas = page.locator('.plan canvas');
  const clean = async (what) => {
    assert.deepEqual(await visitor.axe(), [], `axe on ${what}`);
    assert.deepEqual(await visitor.smallTargets(), [], `touch targets on ${what}`);
    assert.deepEqual(await visitor.cutOff(), [], `${what} is cut off`);
  };
  let fieldBefore;
  let colourBefore;
  let marksBefore;

  await check('phone: a first visit says what to do', async () => {
    await page.goto(server.url);
    await page.getByRole('button', { name: 'Describe my room' }).waitFor();
    await visitor.shot('0-start');
    await clean('the start');
  });

  await check('phone: the demo opens as a copy and draws its field; where nobody looked is fog', async () => {
    await visitor.demo();
    assert.match(await page.locator('h1').innerText(), /invented/i);
    const bad = await visitor.coloursOf(96, 72); // beside the marks and their chips
    const fog = await visitor.coloursOf(14, 30);
    const looked = await visitor.coloursOf(48, 53);
    const apart = (a, b) => Math.hypot(...a.map((value, k) => value - b[k]));
    assert.ok(apart(bad, fog) > 60, `bad wood and fog look alike: ${bad} ${fog}`);
    assert.ok(apart(looked, fog) > 30, `what was looked at and fog look alike: ${looked} ${fog}`);
    fieldBefore = await canvas.getAttribute('aria-label');
    colourBefore = await visitor.coloursOf(...SPOT);
    marksBefore = (await visitor.marks()).length;
    await visitor.shot('1-plan');
    await clean('the plan');
  });

  await check('phone: two touches take an awl mark, the new field shows it, the plan does not move', async () => {
    const before = { box: await canvas.boundingBox(), scale: await canvas.getAttribute('data-scale') };
    await visitor.touchPlan(...SPOT, true);
    await sheet.waitFor();
    await visitor.shot('2-sheet');
    await clean('the sheet');
    await sheet.getByRole('button', { name: /^Gone/ }).tap();
    await note.waitFor({ timeout: 90_000 });
    await visitor.settled();
    const [was, is] = percents(await note.innerText());
    assert.ok(is > was && is >= 50, `the chance at the spot went from ${was} to ${is}`);
    assert.notDeepEqual(await visitor.coloursOf(SPOT[0] + 6, SPOT[1]), colourBefore);
    assert.notEqual(await canvas.getAttribute('aria-label'), fieldBefore);
    const marks = await visitor.marks();
    assert.equal(marks.length, marksBefore + 1);
    const { at_in, tool, reads, layer, time } = marks.at(-1);
    assert.deepEqual({ tool, reads, layer }, { tool: 'awl', reads: 'gone', layer: 'deck' });
    assert.ok(Math.hypot(at_in[0] - SPOT[0], at_in[1] - SPOT[1]) < 2, `the mark lies at ${at_in}`);
    assert.match(time, /T\d\d:\d\d:\d\d[+-]\d\d:\d\d$/, 'local time with its zone');
    assert.deepEqual({ box: await canvas.boundingBox(), scale: await canvas.getAttribute('data-scale') }, before, 'the plan stays where it is');
    await visitor.shot('3-changed');
    await clean('the plan with its note');
  });

  await check('phone: undo brings back the field, redo the mark, a reload keeps both', async () => {
    await page.getByRole('button', { name: /^Undo: awl gone/ }).tap();
    await visitor.settled();
    assert.equal(await canvas.getAttribute('aria-label'), fieldBefore);
    assert.equal((await visitor.marks()).length, marksBefore);
    await page.getByRole('button', { name: /^Do again/ }).tap();
    await visitor.settled();
    await page.reload();
    await visitor.settled();
    assert.equal((await visitor.marks()).length, marksBefore + 1);
    assert.ok(await page.getByRole('button', { name: /^Undo: awl gone/ }).isEnabled());
  });

  await check('phone: a tap beside an old mark, meter after awl, are new marks; the old ones open from a chip', async () => {
    const before = await visitor.marks();
    await visitor.touchPlan(SPOT[0] + 3, SPOT[1], true);
    await sheet.getByRole('button', { name: /^here: 1 mark/ }).waitFor();
    await sheet.getByRole('button', { name: 'Meter', exact: true }).tap();
    await sheet.getByLabel('Moisture').fill('31');
    await sheet.getByRole('button', { name: 'Save reading' }).tap();
    await sheet.waitFor({ state: 'hidden' });
    await visitor.settled();
    const after = await visitor.marks();
    assert.equal(after.length, before.length + 1);
    assert.deepEqual(after.slice(0, -1), before, 'no old mark changed');
  });

  await check('phone: a photo pins to its mark, made smaller, with nothing of where it was taken', async () => {
    // A picture with a place in it, as a camera writes one: EXIF with a GPS directory before the pixels.
    const pixels = await page.evaluate(() => {
      const canvas = document.createElement('canvas');
      canvas.width = 2400;
      canvas.height = 1200;
      canvas.getContext('2d').fillRect(100, 100, 900, 500);
      return canvas.toDataURL('image/jpeg', 0.7).split(',')[1];
    });
    const plain = Buffer.from(pixels, 'base64');
    const exif = Buffer.from('ffe1000e457869660000 4d4d002a00000008'.replaceAll(' ', '') + '', 'hex');
    exif.writeUInt16BE(exif.length - 2, 2);
    const taken = Buffer.concat([plain.subarray(0, 2), exif, plain.subarray(2)]);
    await visitor.touchPlan(70, 20, true);
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), sheet.getByRole('button', { name: 'Photo', exact: true }).tap()]);
    await chooser.setFiles({ name: 'IMG_1.jpg', mimeType: 'image/jpeg', buffer: taken });
    await sheet.getByRole('button', { name: /1 photo/ }).waitFor();
    await sheet.getByRole('button', { name: 'Awl', exact: true }).tap();
    await sheet.getByRole('button', { name: /^Sound/ }).tap();
    await sheet.waitFor({ state: 'hidden' });
    await visitor.settled();
    const { photos, marks } = await visitor.job();
    assert.equal(photos.at(-1).mark, marks.at(-1).id);
    const kept = await visitor.photo(photos.at(-1).sha256);
    assert.deepEqual({ wide: kept.wide, exif: kept.exif }, { wide: 1600, exif: false });
    await page.getByText('Marks, openings, how far').tap();
    await page.getByText(/^Photos \(/).tap();
    await page.locator('.thumb').first().tap();
    await sheet.getByLabel('What it shows').fill('deck by the door');
    await clean('a photo');
    await sheet.getByRole('button', { name: 'Save', exact: true }).tap();
    await sheet.waitFor({ state: 'hidden' });
    await page.waitForTimeout(300);
    assert.equal((await visitor.job()).photos.at(-1).caption, 'deck by the door');
    await page.getByText('Marks, openings, how far').tap();
  });

  await check('phone: impossible values are refused in the sheet, at their field', async () => {
    await visitor.touchPlan(30, 20, true);
    await sheet.getByRole('button', { name: 'Meter', exact: true }).tap();
    await sheet.getByLabel('Moisture').fill('340');
    await sheet.getByRole('button', { name: 'Save reading' }).tap();
    assert.match(await sheet.innerText(), /between 4 and 100/);
    assert.equal(await page.evaluate(() => document.activeElement.getAttribute('name')), 'percent');
    await sheet.getByText('Place by numbers').tap();
    await sheet.getByLabel('From left', { exact: true }).fill("40'");
    await sheet.getByLabel('Moisture').fill('18.5');
    await sheet.getByRole('button', { name: 'Save reading' }).tap();
    assert.match(await sheet.innerText(), /outside the room/);
    await sheet.getByLabel('From left', { exact: true }).fill('7\' 4 1/2"');
    await sheet.getByLabel('From near wall').fill('1-6');
    await visitor.shot('4-meter');
    await clean('the sheet with numbers');
    await sheet.getByRole('button', { name: 'Save reading' }).tap();
    await sheet.waitFor({ state: 'hidden' });
    await visitor.settled();
    const mark = (await visitor.marks()).at(-1);
    assert.deepEqual({ at: mark.at_in, mc: mark.mc_percent, tool: mark.tool }, { at: [88.5, 18], mc: 18.5, tool: 'meter' });
  });

  await check('phone: what was entered survives Close, Back and a killed tab', async () => {
    await visitor.touchPlan(20, 20, true);
    await sheet.getByText('Depth, note').tap();
    await sheet.getByLabel('Note').fill('smells of gas here');
    await page.goBack();
    await sheet.waitFor({ state: 'hidden' });
    assert.equal(page.url().startsWith(server.url), true, 'Back closed the sheet only');
    const other = await page.context().newPage();
    await page.close({ runBeforeUnload: false });
    visitor.page = other;
    await other.goto(server.url);
    await visitor.settled();
    await other.getByRole('button', { name: /Unfinished mark/ }).tap();
    await other.getByRole('dialog').getByText('Depth, note').tap();
    assert.equal(await other.getByRole('dialog').getByLabel('Note').inputValue(), 'smells of gas here');
    await other.getByRole('dialog').getByRole('button', { name: 'Throw this entry away' }).tap();
    await other.getByRole('dialog').waitFor({ state: 'hidden' });
    assert.equal(await other.getByRole('button', { name: /Unfinished mark/ }).count(), 0);
    await other.close();
  });
  await page.context().close();
}

/** The rest of the phone: framing from below, zoom, stages, papers, files. */
export async function phoneStages({ browser, server, check, assert }) {
  const visitor = await Visitor.come(browser, 'phone', { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 });
  const { page } = visitor;
  const sheet = page.getByRole('dialog');
  const canvas = page.locator('.plan canvas');
  const clean = async (what) => {
    assert.deepEqual(await visitor.axe(), [], `axe on ${what}`);
    assert.deepEqual(await visitor.smallTargets(), [], `touch targets on ${what}`);
    assert.deepEqual(await visitor.cutOff(), [], `${what} is cut off`);
  };

  await check('phone: from below the plan is mirrored, and stays so; gone on a joist says do not stand here', async () => {
    await page.goto(server.url);
    await visitor.demo();
    await page.getByRole('button', { name: 'Framing', exact: true }).tap();
    const above = await visitor.pixelOf(20, 30);
    await page.getByRole('button', { name: 'From above', exact: true }).tap();
    await page.getByRole('button', { name: /Mirrored/ }).waitFor();
    const below = await visitor.pixelOf(20, 30);
    assert.ok(below.x > above.x + 60, 'the left of the room lies on the right');
    await visitor.shot('5-below');
    await visitor.touchPlan(53, 30, true);
    assert.equal(await sheet.getByRole('button', { name: 'From below' }).getAttribute('aria-pressed'), 'true');
    await sheet.getByRole('button', { name: 'Awl', exact: true }).tap();
    await sheet.getByRole('button', { name: /^Gone/ }).tap();
    await page.getByRole('heading', { name: 'Do not stand here' }).waitFor();
    await visitor.shot('6-shore');
    await page.getByRole('button', { name: 'Understood' }).tap();
    await page.waitForTimeout(600);
    const mark = (await visitor.marks()).at(-1);
    assert.deepEqual({ support: mark.support, from: mark.from, reads: mark.reads, tool: mark.tool }, { support: 'j4', from: 'below', reads: 'gone', tool: 'awl' });
    await page.getByRole('button', { name: /Mirrored/ }).tap();
    await page.getByRole('button', { name: 'Subfloor', exact: true }).tap();
    await visitor.settled();
  });

  await check('phone: two fingers zoom about their middle, one finger pans', async () => {
    const box = await canvas.boundingBox();
    const cdp = await page.context().newCDPSession(page);
    const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    const scale = async () => Number(await canvas.getAttribute('data-scale'));
    const wholeRoom = page.getByRole('button', { name: 'Whole room' });
    await wholeRoom.tap();
    await page.waitForTimeout(300);
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
    await page.waitForTimeout(200); // the finger rests before it lifts, or the browser takes the lift for a fling
    await cdp.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    assert.ok(Math.abs(Number(await canvas.getAttribute('data-x')) - x - 60) < 15, 'the plan followed the finger');
    assert.equal(await sheet.count(), 0, 'a drag is not a tap');
    // While the browser still takes the last touch for a fling it swallows the next tap, which only stops the fling.
    let after = await scale();
    for (let taps = 0; taps < 3 && Math.abs(after / before - 1) >= 1e-3; taps++) {
      await page.waitForTimeout(500);
      await wholeRoom.tap();
      await page.waitForTimeout(500);
      after = await scale();
    }
    assert.ok(Math.abs(after / before - 1) < 1e-3, `the whole room was ${before} and is ${after}`);
    // Another layer, the framing, a message: none of them moves the plan.
    const where = async () => JSON.stringify([await canvas.boundingBox(), await scale(), await canvas.getAttribute('data-x'), await canvas.getAttribute('data-y')]);
    const still = await where();
    for (const name of ['Sheet vinyl', 'Framing', 'Wall plates', 'Subfloor']) {
      await page.getByRole('button', { name, exact: true }).tap();
      assert.equal(await where(), still, `the plan moved when ${name} was shown`);
    }
  });

  await check('phone: the list of marks; one is changed by its own Save, one taken away', async () => {
    await page.getByText('Marks, openings, how far').tap();
    await visitor.shot('7-survey');
    await clean('the survey page');
    const before = await visitor.marks();
    await page.locator('.rows .row').first().tap();
    await sheet.getByRole('button', { name: /^Soft/ }).tap();
    assert.deepEqual(await visitor.marks(), before, 'choosing is not saving');
    await sheet.getByRole('button', { name: 'Save', exact: true }).tap();
    await sheet.waitFor({ state: 'hidden' });
    await page.waitForTimeout(300);
    assert.equal((await visitor.marks()).at(-1).reads, 'soft');
    await page.locator('.rows .row').first().tap();
    await sheet.getByRole('button', { name: 'Take this mark away' }).tap();
    await sheet.waitFor({ state: 'hidden' });
    await page.waitForTimeout(300);
    assert.equal((await visitor.marks()).length, before.length - 1);
    await page.getByText('Marks, openings, how far').tap();
    await visitor.settled();
  });

  const STAGES = ['Hazards', 'Cut back', 'Floor', 'Shower', 'Drying', 'Take-off', 'Work', 'Price'];
  await check('phone: every stage answers in its first line and names the next step', async () => {
    for (const [i, name] of STAGES.entries()) {
      await visitor.screen(name);
      await page.locator(`main h2`).getByText(name, { exact: true }).waitFor();
      await page.locator('.answer').waitFor({ timeout: 180_000 });
      assert.ok((await page.locator('.answer').innerText()).length > 10, `${name} has no answer`);
      assert.ok((await page.locator('.pane > section > button.main, .pane .main').count()) > 0, `${name} names no next step`);
      await page.waitForTimeout(150);
      await visitor.shot(`8-${i}-${name.toLowerCase().replace(' ', '-')}`);
      await clean(name);
    }
    assert.match(await page.locator('.answer').innerText(), /\$[\d,]+ to \$[\d,]+/);
  });

  await check('phone: a gate stays until somebody says that it is met', async () => {
    await visitor.screen('Hazards');
    const gates = page.locator('.gates > li:not(.met)');
    const before = await gates.count();
    assert.ok(before > 0);
    await gates.getByRole('button', { name: 'It is met' }).first().tap();
    await sheet.getByRole('button', { name: 'It is met' }).tap();
    assert.match(await sheet.innerText(), /Say who/);
    await sheet.getByLabel('By whom').fill('J. D.');
    await visitor.shot('9-met');
    await clean('the sheet of a gate');
    await sheet.getByRole('button', { name: 'It is met' }).tap();
    await sheet.waitFor({ state: 'hidden' });
    await page.waitForTimeout(500);
    const { hazards } = await visitor.job();
    assert.equal(hazards.met.length, 1);
    assert.equal(hazards.met[0].by, 'J. D.');
    await page.getByRole('button', { name: /^Undo: gate met/ }).tap();
    await page.waitForTimeout(500);
  });

  await check('phone: what is due opens from the plan; a laboratory lifts what no tick lifts', async () => {
    await visitor.screen('Survey');
    await page.locator('.due .what').tap();
    await sheet.getByRole('heading', { name: 'Due now' }).waitFor();
    await clean('what is due');
    await page.keyboard.press('Escape');
    await sheet.waitFor({ state: 'hidden' });
    // The note of the last change gives way to the advice.
    await visitor.settled();
    const note = page.locator('.change').getByRole('button', { name: 'Close this note' });
    if ((await note.count()) > 0) await note.tap();
    await page.locator('.advice .what').tap();
    await page.locator('.advice').getByRole('button', { name: 'The laboratory says' }).tap();
    await sheet.getByLabel('By whom').fill('Lab, invented');
    await sheet.getByRole('button', { name: /^Clear/ }).tap();
    await clean('the sheet of a laboratory result');
    await sheet.getByRole('button', { name: 'Save the result' }).tap();
    await sheet.waitFor({ state: 'hidden' });
    await visitor.settled();
    const { hazards } = await visitor.job();
    assert.deepEqual(hazards.facts.laboratory.map(({ layer, result, by }) => ({ layer, result, by })), [{ layer: 'sheet', result: 'clear', by: 'Lab, invented' }]);
    await page.getByRole('status', { name: 'What changed' }).getByRole('button', { name: 'Close this note' }).tap();
    assert.doesNotMatch(await page.locator('.advice').innerText(), /sample/);
    await page.getByRole('button', { name: /^Undo: laboratory/ }).tap();
    await visitor.settled();
  });

  await check('phone: the drying log takes a day in one line', async () => {
    await visitor.screen('Drying');
    const before = (await visitor.job()).drying.readings;
    await page.getByLabel(/was \d+/).first().fill('14.5');
    await page.getByLabel('Humidity').fill('40');
    await page.getByRole('button', { name: 'Save 1 reading' }).tap();
    await page.waitForTimeout(400);
    const { at_in, layer, mc_percent, air_rh_percent } = (await visitor.job()).drying.readings.at(-1);
    assert.deepEqual({ layer, mc_percent, air_rh_percent }, { layer: 'deck', mc_percent: 14.5, air_rh_percent: 40 });
    assert.deepEqual(at_in, before.at(-1).at_in);
    await page.getByRole('button', { name: /^Undo: meter reading/ }).tap();
  });

  await check('phone: papers open, without a script in them, and carry the name of the job', async () => {
    await visitor.screen('Papers');
    await page.locator('.rows .row').first().tap({ timeout: 180_000 });
    const frame = page.frameLocator('iframe');
    await frame.locator('svg').first().waitFor();
    assert.ok((await frame.locator('body').innerText()).length > 500);
    await visitor.shot('10-paper');
    assert.deepEqual(await visitor.smallTargets(), []);
    const [saved] = await Promise.all([page.waitForEvent('download'), sheet.getByRole('button', { name: 'Share or save' }).tap()]);
    assert.match(saved.suggestedFilename(), /^juniper-lane-laundry-invented-.*\.html$/);
    await sheet.getByRole('button', { name: 'Close' }).tap();
    await sheet.waitFor({ state: 'hidden' });
    await visitor.shot('11-papers');
    await clean('the papers');
  });

  await check('phone: a broken file shows each problem, a good one opens, everything goes out as a ZIP and comes back', async () => {
    const menu = page.getByRole('button', { name: 'Menu' });
    const choose = async (name, buffer) => {
      await menu.tap();
      const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: /Open a job file/ }).tap()]);
      await chooser.setFiles({ name, mimeType: 'application/octet-stream', buffer });
    };
    await menu.tap();
    await sheet.waitFor();
    await visitor.shot('12-menu');
    await clean('the menu');
    await sheet.getByRole('button', { name: 'Close' }).tap();
    await choose('job.json', Buffer.from('{"format":"awlmark-job","version":1,"room":{"outline_in":[[0,0],[60,0],[60,60]]},"marks":[{"id":"a","tool":"owl"}]}'));
    const alert = page.locator('.alert');
    await alert.waitFor();
    assert.match(await alert.innerText(), /marks\[0\]\.tool/);
    await visitor.shot('13-problems');
    await alert.getByRole('button', { name: 'Close' }).tap();
    await choose('job.zip', Buffer.from('PK\u0003\u0004 and then nothing that holds together, at all, at all, at all'));
    await alert.waitFor();
    assert.match(await alert.innerText(), /ZIP/);
    await alert.getByRole('button', { name: 'Close' }).tap();
    await choose('job.json', Buffer.from('{"format":"awlmark-job","version":1,"job":{"name":"=Three walls"},"room":{"outline_in":[[0,0],["8 ft",0],["8 ft","5\' 6\\""],[0,66]]},"layers":[{"id":"deck","material":"plywood"}]}'));
    await page.waitForFunction(() => document.querySelector('h1').textContent === '=Three walls');
    await menu.tap();
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: /Save everything/ }).tap()]);
    assert.equal(download.suggestedFilename(), 'three-walls.zip');
    const parts = [];
    for await (const part of await download.createReadStream()) parts.push(part);
    await sheet.getByRole('button', { name: 'Close' }).tap();
    await choose('back.zip', Buffer.concat(parts));
    await page.waitForTimeout(800);
    assert.deepEqual((await visitor.job()).room.outline_in, [[0, 0], [96, 0], [96, 66], [0, 66]]);
  });

  await check('phone: nothing went wrong out of sight', async () => assert.deepEqual(visitor.errors, []));
  await page.context().close();
}
