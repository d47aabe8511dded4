import react from '@vitejs/plugin-react'
import { defineConfig, type Plugin } from 'vite'

/** The pages: sources in src/web, built into dist/web-app with the content's hash in each name. */
export default defineConfig({
  root: 'src/web',
  publicDir: 'public',
  plugins: [react(), shellList()],
  build: {
    outDir: '../../dist/web-app',
    emptyOutDir: true,
    assetsInlineLimit: 0, // what the pages load comes from us by name: the policy allows nothing else
    target: 'es2022',
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    // what the first page needs comes in one piece, not in one more for each page that shares it
    rolldownOptions: {
      output: { codeSplitting: { groups: [{ name: 'first', tags: ['$initial'] }] } },
    },
  },
  server: { proxy: { '/api': process.env['YELLOWROOM_SERVER'] ?? 'http://127.0.0.1:4680' } },
})

/** Names what a device keeps to open the pages without a connection: all that was built. */
function shellList(): Plugin {
  return {
    name: 'shell list',
    apply: 'build',
    enforce: 'post',
    generateBundle(_, bundle) {
      const built = Object.keys(bundle).filter((name) => name.startsWith('assets/'))
      const paths = [...built, 'scheme.js', 'mark.svg', 'manifest.webmanifest'].map(
        (name) => `/${name}`,
      )
      this.emitFile({ type: 'asset', fileName: 'shell.json', source: JSON.stringify(paths) })
    },
  }
}
