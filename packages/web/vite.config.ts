import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'
import { VitePWA } from 'vite-plugin-pwa'
import { chunkOf } from './chunks.ts'
import { lazySchemas } from './lazy-schemas.ts'
import { plainScripts } from './plain-scripts.ts'
import { readReferences } from './read-references.ts'

const api = process.env['RILLMARK_API'] ?? 'http://127.0.0.1:8710'
/** The largest file of the app; a file above it would be left out of what is kept for places without a network, so the build fails instead. */
const LARGEST_FILE_BYTES = 4 * 1024 * 1024

export default defineConfig({
  root: import.meta.dirname,
  plugins: [
    react(),
    lazySchemas(),
    readReferences(),
    plainScripts(),
    VitePWA({
      // Registered by src/offline, which also decides when a newer version may take over.
      injectRegister: false,
      registerType: 'prompt',
      manifest: {
        id: '/',
        name: 'Rillmark',
        short_name: 'Rillmark',
        description: 'The workbench of the environmental health investigator.',
        lang: 'en',
        start_url: '/open',
        scope: '/',
        display: 'standalone',
        background_color: '#fbfaf6',
        theme_color: '#fbfaf6',
        icons: [
          { src: '/icons/icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: '/icons/icon-512.png', sizes: '512x512', type: 'image/png' },
          { src: '/icons/icon-cut-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
          { src: '/mark.svg', sizes: 'any', type: 'image/svg+xml' },
        ],
      },
      workbox: {
        // Everything: screens fetched later, workers, wasm, fonts, and with them reference data and procedures.
        globPatterns: ['**/*.{html,js,css,svg,png,woff2,wasm,json}'],
        globIgnores: ['verify.html'],
        maximumFileSizeToCacheInBytes: LARGEST_FILE_BYTES,
        inlineWorkboxRuntime: true,
        navigateFallback: '/index.html',
        // What the server alone can answer is never answered from here.
        navigateFallbackDenylist: [/^\/api(?:\/|$)/, /^\/assets\//, /^\/verify\.html$/],
        // The page that installed it is served by it at once: a screen first opened in the basement is there.
        clientsClaim: true,
      },
    }),
  ],
  build: {
    outDir: 'dist',
    emptyOutDir: true,
    target: 'es2022',
    // Strict content security policy: nothing is inlined as a data address.
    assetsInlineLimit: 0,
    // Scripts are fetched by our own loader, which knows what each imports; styles by vite.
    modulePreload: {
      polyfill: false,
      resolveDependencies: (_, files) => files.filter((file) => file.endsWith('.css')),
    },
    chunkSizeWarningLimit: 900,
    rolldownOptions: {
      checks: { pluginTimings: false },
      output: {
        codeSplitting: {
          includeDependenciesRecursively: false,
          groups: [
            {
              debugName: 'record',
              name: (id, graph) => chunkOf(id, (each) => graph.getModuleInfo(each)) ?? null,
            },
          ],
        },
      },
    },
  },
  // The server takes writes from its own address only: it must see the one the browser sees.
  server: { proxy: { '/api': { target: api, changeOrigin: false } } },
  preview: { proxy: { '/api': { target: api, changeOrigin: false } } },
})
