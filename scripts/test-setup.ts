/**
 * Sees to what the tests need beside npm's packages: a C compiler and a headless browser. What is missing is
 * installed where that can be done without asking (root, apt-get); otherwise this fails with the command to run.
 */
import { answers, runOrExit } from './run.ts';

const NEEDS: readonly { what: string; programs: readonly string[]; packages: readonly string[] }[] = [
  { what: 'a C compiler', programs: ['cc'], packages: ['gcc', 'libc6-dev'] },
  {
    what: 'a headless browser',
    programs: ['chromium', 'chromium-browser'],
    packages: ['chromium', 'fonts-dejavu-core'],
  },
];

const missing = NEEDS.filter(({ programs }) => !programs.some((program) => answers(program)));
if (missing.length > 0) {
  const packages = missing.flatMap((need) => need.packages);
  const install = ['install', '-y', '--no-install-recommends', ...packages];
  if (process.getuid?.() === 0 && answers('apt-get')) {
    runOrExit('apt-get', ['-q', 'update']);
    runOrExit('apt-get', ['-q', ...install]);
  }
  for (const { what, programs } of missing) {
    if (programs.some((program) => answers(program))) continue;
    process.stderr.write(
      `the tests need ${what} (${programs.join(' or ')}), which is not here; install it with:\n` +
        `  sudo apt-get update && sudo apt-get ${install.join(' ')}\n`,
    );
    process.exit(1);
  }
}
