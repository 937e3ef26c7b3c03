// The page's content policy, written into the built page only: the dev server needs inline scripts.
// 'wasm-unsafe-eval' lets the engine start; inline styles are what the widget library sets.
import type { Plugin } from 'vite';

const rules = [
  "default-src 'self'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "worker-src 'self'",
  "frame-src 'self' blob:",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
];

export function contentPolicy(): Plugin {
  return {
    name: 'content-policy',
    apply: 'build',
    transformIndexHtml: () => [
      { tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: rules.join('; ') }, injectTo: 'head-prepend' },
    ],
  };
}
