// The page in a real browser, as a person with gloves uses it. Needs web/dist (npm run build).
//   npm run e2e            pictures go to build/page-shots/
import assert from 'node:assert/strict';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { launch, root } from './browser.mjs';
import { serve } from './static.mjs';
import { broad } from './broad.mjs';
import { look } from './look.mjs';
import { office } from './office.mjs';
import { offline } from './offline.mjs';
import { own } from './own.mjs';
import { phone, phoneStages } from './phone.mjs';
import { windows } from './windows.mjs';

const dist = join(root, 'web/dist');
if (!existsSync(join(dist, 'index.html'))) {
  console.error('web/dist is not built: npm --prefix web run build');
  process.exit(2);
}

let passed = 0;
let failed = 0;
const only = process.argv[2];
async function check(name, work) {
  if (failed > 0) return; // each step stands on the one before
  const start = Date.now();
  try {
    await work();
    passed++;
    console.log(`ok    ${name} (${Date.now() - start} ms)`);
  } catch (error) {
    failed++;
    console.error(`FAIL  ${name}\n${error.stack}`);
  }
}

const browser = await launch();
for (const [name, suite] of Object.entries({ phone, stages: phoneStages, own, broad, windows, look, offline, office })) {
  if (only && only !== name) continue;
  const server = await serve(() => dist);
  const before = failed;
  failed = 0;
  await suite({ browser, server, dist, check, assert });
  failed += before;
  await server.stop();
}
await browser.close();
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 ? 1 : 0);
