import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

const here = fileURLToPath(new URL('.', import.meta.url));

/**
 * Builds the screens into dist/renderer. Addresses are relative and nothing is inlined, so that the
 * same files serve the app's own scheme and the loopback address under a policy without inline
 * scripts or data: fonts.
 */
export default defineConfig({
  root: here,
  base: './',
  plugins: [react()],
  build: {
    outDir: fileURLToPath(new URL('../dist/renderer', import.meta.url)),
    emptyOutDir: true,
    target: 'chrome114',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 900,
    rolldownOptions: {
      output: {
        // What every start needs is one file: each further one costs the window a question to
        // the main process.
        codeSplitting: { groups: [{ name: 'start', tags: ['$initial'] }] },
      },
    },
  },
});
