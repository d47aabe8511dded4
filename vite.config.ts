import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'

/** The pages: sources in src/web, built into dist/web-app with the content's hash in each name. */
export default defineConfig({
  root: 'src/web',
  publicDir: 'public',
  plugins: [react()],
  build: {
    outDir: '../../dist/web-app',
    emptyOutDir: true,
    assetsInlineLimit: 0, // what the pages load comes from us by name: the policy allows nothing else
    target: 'es2022',
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  server: { proxy: { '/api': process.env['YELLOWROOM_SERVER'] ?? 'http://127.0.0.1:4680' } },
})
