import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

// The page must live under a policy without inline scripts, inline styles and eval, from an address that is not known
// here (a scheme of the window's own, or a folder of the local server): so relative addresses, and files, not data.
export default defineConfig({
  root: import.meta.dirname,
  base: './',
  plugins: [react()],
  build: {
    outDir: '../dist/renderer',
    emptyOutDir: true,
    sourcemap: false,
    target: 'chrome130',
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 3000,
  },
});
