// Writes sw.js beside the built page: a service worker that keeps every file of this build.
//
// Guarantees: (1) after one visit the page opens without a network; (2) a new build waits until the
// page asks for it, so that one visit never mixes two builds; (3) an old build's files are deleted
// when the new one takes over. The list's own hash names the cache.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import type { Plugin } from 'vite';

// Files that Vite copies from public/ do not pass through the bundle.
function publicFiles(dir: string): string[] {
  return readdirSync(dir, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(dir, join(entry.parentPath, entry.name)));
}

export function workerText(cache: string, files: string[]): string {
  return `const CACHE = ${JSON.stringify(cache)};
const FILES = ${JSON.stringify(files)};
// Static servers may answer with Vary: Origin, and the page's own script tag is crossorigin: without
// ignoreVary the kept file would not match.
const kept = (request) => caches.open(CACHE).then((cache) => cache.match(request, { ignoreVary: true, ignoreSearch: true }));
self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(FILES.map((file) => new Request(file, { cache: 'reload' })))));
});
self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(names.filter((name) => name.startsWith('awlmark-') && name !== CACHE).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});
self.addEventListener('message', (event) => {
  if (event.data === 'take over') self.skipWaiting();
});
self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
  const wanted = request.mode === 'navigate' ? './' : request;
  event.respondWith(kept(wanted).then((found) => found ?? fetch(request)));
});
`;
}

export function offline(): Plugin {
  let publicDir = '';
  return {
    name: 'offline',
    apply: 'build',
    configResolved(config) {
      publicDir = config.publicDir;
    },
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        const hash = createHash('sha256');
        const files = ['./'];
        for (const [name, item] of Object.entries(bundle).sort(([a], [b]) => (a < b ? -1 : 1))) {
          hash.update(name).update(item.type === 'asset' ? item.source : item.code);
          if (name !== 'index.html') files.push(`./${name}`);
        }
        for (const name of publicFiles(publicDir).sort()) {
          hash.update(name).update(readFileSync(join(publicDir, name)));
          files.push(`./${name}`);
        }
        const cache = `awlmark-${hash.digest('hex').slice(0, 16)}`;
        this.emitFile({ type: 'asset', fileName: 'sw.js', source: workerText(cache, files) });
      },
    },
  };
}
