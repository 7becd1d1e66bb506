import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { defineConfig, type Plugin, type UserConfig } from 'vite';

const HERE = import.meta.dirname;

/**
 * Makes one HTML file of script, styles and template. Browsers block module scripts and files beside a page that was
 * opened by double click, so both stand in the page itself; its own policy then allows these two and nothing else.
 */
function onePage(): Plugin {
  return {
    name: 'one-page',
    // Behind vite's own plugin, which puts the styles together.
    enforce: 'post',
    generateBundle(_, bundle) {
      let script = '';
      let style = '';
      for (const [name, file] of Object.entries(bundle)) {
        if (file.type === 'chunk') script = file.code;
        else if (name.endsWith('.css')) style = String(file.source);
        delete bundle[name];
      }
      // The only texts that could end their element early.
      script = script.replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--').trim();
      // A single character beyond ASCII makes a browser keep the whole page, its data too, in twice the memory, and
      // read it several times slower; in scripts and styles an escape means the same.
      script = script.replace(/[\u0080-\uffff]/g, (unit) => `\\u${hexOf(unit).padStart(4, '0')}`);
      style = style.trim().replace(/[\u{80}-\u{10ffff}]/gu, (character) => `\\${hexOf(character)} `);
      const filled: Record<string, string> = {
        'script-hash': hashOf(script),
        'style-hash': hashOf(style),
        script: `<script>${script}</script>`,
        style: `<style>${style}</style>`,
      };
      const page = readFileSync(join(HERE, 'page.html'), 'utf8').replace(
        /<!-- (script|style) -->|\{(script-hash|style-hash)\}/gu,
        (_, element?: string, hash?: string) => filled[element ?? hash ?? ''] ?? '',
      );
      this.emitFile({ type: 'asset', fileName: 'page.html', source: page });
    },
  };
}

function hexOf(character: string): string {
  return (character.codePointAt(0) as number).toString(16);
}

function hashOf(text: string): string {
  return `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
}

/**
 * Libraries of the commands that would take half of what a page may weigh, and from which the page wants little. Ours are
 * small, and tests hold them against the libraries.
 */
const SMALL: Readonly<Record<string, string>> = {
  '@stdlib/stats-base-dists-t-cdf': "export { tCdf as default } from './distributions/t-cdf.ts'",
  '@stdlib/stats-base-dists-t-quantile':
    "export { tQuantile as default } from './distributions/t-quantile.ts'",
  '@stdlib/stats-base-dists-chisquare-cdf':
    "export { chiSquareCdf as default } from './distributions/chi-square-cdf.ts'",
  'csv-parse/sync': "export { CsvError, parse } from './csv-grammar.ts'",
};

function smallLibraries(): Plugin {
  const files = Object.entries(SMALL).map(
    ([id, source]) => [id, join(HERE, `${basename(id)}.small.js`), source] as const,
  );
  return {
    name: 'small-libraries',
    enforce: 'pre',
    resolveId: (wanted) => files.find(([id]) => id === wanted)?.[1] ?? null,
    load: (wanted) => files.find(([, file]) => file === wanted)?.[2] ?? null,
  };
}

const config: UserConfig = defineConfig({
  root: HERE,
  publicDir: false,
  plugins: [smallLibraries(), onePage()],
  build: {
    outDir: join(HERE, '../dist/web'),
    emptyOutDir: true,
    target: 'es2022',
    cssCodeSplit: false,
    modulePreload: false,
    rollupOptions: {
      input: join(HERE, 'main.ts'),
      output: { format: 'iife', entryFileNames: 'page.js', assetFileNames: 'page[extname]' },
    },
  },
});

export default config;
