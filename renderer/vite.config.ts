import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  base: './',
  plugins: [react()],
  resolve: { tsconfigPaths: true },
  worker: { format: 'es' },
  build: {
    outDir: '../dist/renderer',
    emptyOutDir: true,
    target: 'es2023',
    // The content policy lets no data: font or script through.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 4000,
    // The terms of the packages and fonts that are bundled go out with them.
    license: { fileName: 'licences.md' },
  },
});
