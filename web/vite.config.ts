import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** The installable shell: the page's own files are kept, so it opens without network; nothing of the API is ever kept by the worker. */
const offlineShell = VitePWA({
  registerType: 'autoUpdate',
  injectRegister: false,
  includeAssets: ['icon.svg', 'icon-192.png'],
  manifest: {
    name: 'Sward',
    short_name: 'Sward',
    description: 'Where every ball lies on the lawn, and which are past the halfway line.',
    lang: 'en',
    start_url: '/',
    display: 'standalone',
    background_color: '#f6f3ea',
    theme_color: '#18352a',
    icons: [
      { src: '/icon-192.png', sizes: '192x192', type: 'image/png' },
      { src: '/icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any maskable' },
    ],
  },
  workbox: {
    navigateFallback: '/index.html',
    navigateFallbackDenylist: [/^\/api\//],
    globPatterns: ['**/*.{js,css,html,svg,png,woff2}'],
    cleanupOutdatedCaches: true,
  },
});

export default defineConfig(({ command }) => {
  // A page built from within a test would otherwise carry the libraries' aids for development, four times their size.
  if (command === 'build') process.env.NODE_ENV = 'production';
  return {
    root: here('.'),
    publicDir: here('public'),
    plugins: [react(), offlineShell],
    build: { outDir: here('dist'), emptyOutDir: true, target: 'es2022', sourcemap: false },
  };
});
