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
      script = asAscii(script.replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--').trim());
      style = style.trim();
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

/** Browsers keep a page of plain ASCII in half the memory and read it faster; in a script an escape means the same. */
function asAscii(script: string): string {
  return script.replace(/[\u0080-\uffff]/gu, (character) =>
    character.replace(/[\s\S]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`),
  );
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
