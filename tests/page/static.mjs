// A plain static server for the built page, to be stopped and started again by the tests.
// It sends Vary: Origin on purpose: a service worker that does not expect it fails offline.
// `packed` sends by gzip -9, as `awlmark serve` does; the benches measure so.
import { createReadStream, existsSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize, sep } from 'node:path';
import { gzipSync } from 'node:zlib';

const TYPES = { '.html': 'text/html; charset=utf-8', '.js': 'text/javascript', '.css': 'text/css', '.wasm': 'application/wasm', '.svg': 'image/svg+xml', '.json': 'application/json', '.webmanifest': 'application/manifest+json' };

export function serve(rootOf, port = 0, packed = false) {
  const ready = new Map();
  const gzipped = (file) => {
    if (!ready.has(file)) ready.set(file, gzipSync(readFileSync(file), { level: 9 }));
    return ready.get(file);
  };
  const server = createServer((request, response) => {
    const root = rootOf();
    const path = normalize(decodeURIComponent(new URL(request.url, 'http://x').pathname));
    const file = join(root, path.endsWith('/') ? `${path}index.html` : path);
    if (!file.startsWith(root + sep) || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404).end('not here');
      return;
    }
    const head = { 'Content-Type': TYPES[extname(file)] ?? 'application/octet-stream', 'Cache-Control': 'no-cache', Vary: 'Origin' };
    if (packed) {
      const body = gzipped(file);
      response.writeHead(200, { ...head, 'Content-Encoding': 'gzip', 'Content-Length': body.length }).end(body);
      return;
    }
    response.writeHead(200, head);
    createReadStream(file).pipe(response);
  });
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => {
      const address = server.address();
      const stop = () =>
        new Promise((done) => {
          server.close(done);
          server.closeAllConnections();
        });
      resolve({ port: address.port, url: `http://127.0.0.1:${address.port}/`, stop });
    });
  });
}
