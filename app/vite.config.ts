import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

// In development the pages come from Vite and everything else from a server: the demo, or `npm run fake`.
const server = process.env['HOURWRIGHT'] ?? 'http://127.0.0.1:8470';

export default defineConfig({
  plugins: [svelte()],
  // Vitest would take Svelte's server build, in which nothing reacts.
  resolve: process.env['VITEST'] ? { conditions: ['browser'] } : {},
  build: {
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: { index: 'index.html', worker: 'src/worker/worker.ts' },
      // The worker has an address of its own that stays, since the browser asks there for a newer one.
      output: {
        entryFileNames: ({ name }) => (name === 'worker' ? 'worker.js' : 'assets/[name]-[hash].js'),
      },
    },
  },
  server: { proxy: { '/api': server, '/healthz': server } },
  test: {
    include: ['src/**/*.test.ts', 'fake/**/*.test.ts', 'steps/**/*.test.ts'],
    setupFiles: ['src/words/every_language.ts'],
  },
});
