import react from '@vitejs/plugin-react';
import { defineConfig } from 'vitest/config';
import { offline } from './plugins/offline.ts';
import { contentPolicy } from './plugins/policy.ts';

export default defineConfig({
  base: './',
  plugins: [react(), contentPolicy(), offline()],
  worker: { format: 'es' },
  server: { fs: { allow: ['..'] } },
  build: { target: 'es2022', assetsInlineLimit: 0, modulePreload: { polyfill: false } },
  test: { include: ['tests/**/*.test.ts'], environment: 'node', testTimeout: 120_000 },
});
