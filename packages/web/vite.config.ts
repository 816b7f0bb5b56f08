import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

const api = process.env['RILLMARK_API'] ?? 'http://127.0.0.1:8710'

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react()],
  build: {
    outDir: 'dist',
    emptyOutDir: true,
    manifest: true,
    target: 'es2022',
    // Strict content security policy: nothing is inlined as a data address.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 900,
  },
  // The server takes writes from its own address only: it must see the one the browser sees.
  server: { proxy: { '/api': { target: api, changeOrigin: false } } },
  preview: { proxy: { '/api': { target: api, changeOrigin: false } } },
})
