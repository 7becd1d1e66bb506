import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { builtPage, pageWith, writePage } from '../../../../src/cli/page/page-file.ts';
import { showable } from '../../../../src/cli/page/showable.ts';
import { type PageData, parsePageData } from '../../../../src/formats/page-data.ts';
import { addVisit } from '../../../../src/logbook/logbook.ts';
import { runCommand } from '../../../support/fake-io.ts';
import { PAGE_SEED } from '../../../support/fuzz/page-seed.ts';
import { newLogbook, someVisit, temporaryFolder } from '../../../support/logbooks.ts';

function dataIn(path: string): PageData {
  const text = readFileSync(path, 'utf8');
  return parsePageData(/id="page-data">(.*?)<\/script>/su.exec(text)?.[1] ?? '');
}

describe('turfwire page', () => {
  it('writes one file with the data inside, and says where it is', async () => {
    const logbook = await newLogbook();
    await addVisit(logbook, someVisit(1, 2));
    const { code, out } = await runCommand(['page', '--logbook', logbook], { cwd: logbook });
    const path = join(logbook, 'turfwire-page.html');
    expect({ code, out }).toEqual({ code: 0, out: expect.stringContaining(path) });
    const { sweeps, opens, source } = dataIn(path);
    expect({ opens, source }).toEqual({ opens: 'questions', source: 'file' });
    expect(sweeps.visits).toMatchObject([{ visit: 1, shots: [{ grid: 0 }, { grid: 0 }] }]);
  });

  it('is plain ASCII, which a browser reads in half the memory', async () => {
    const page = await builtPage();
    expect(Buffer.byteLength(page)).toBe(page.length);
  });

  it('says of each question without an answer why, and what brings it, and nothing of where the logbook lies', async () => {
    const logbook = await newLogbook();
    await runCommand(['page', '--logbook', logbook], { cwd: logbook });
    const path = join(logbook, 'turfwire-page.html');
    const { plan, progress, comparisons, changes, lot, safety } = dataIn(path);
    for (const part of [plan, comparisons, changes, lot, safety]) {
      expect(part).toEqual({
        data: null,
        missing: {
          why: expect.stringMatching(/^\S.*\.$/u),
          command: expect.stringMatching(/^turfwire /u),
        },
      });
    }
    expect(progress.data?.[0]?.advice).toBe('measure again');
    expect(readFileSync(path, 'utf8')).not.toContain(logbook);
  });

  it('names commands as the user calls the program, and the logbook where they named it shortly', async () => {
    const logbook = await newLogbook();
    const world = { cwd: dirname(logbook), called: 'npx turfwire' };
    await runCommand(['page', '--logbook', basename(logbook), '--out', 'named.html'], world);
    const { commands, plan } = dataIn(join(dirname(logbook), 'named.html'));
    const where = `--logbook ${basename(logbook)}`;
    expect(commands.compare).toBe(`npx turfwire compare ${where}`);
    expect(plan.missing?.command).toBe(`npx turfwire plan --stock 2x25m ${where}`);
  });

  it('opens with the report when it is for print', async () => {
    const logbook = await newLogbook();
    const { out } = await runCommand(['page', '--logbook', logbook, '--print', '--json'], { cwd: logbook });
    const { file, opens } = JSON.parse(out) as { file: string; opens: string };
    expect([file, opens, dataIn(file).opens]).toEqual([
      join(logbook, 'turfwire-report.html'),
      'report',
      'report',
    ]);
  });

  it('does without a sweep that is gone, names it, and ends with 4', async () => {
    const logbook = await newLogbook();
    await addVisit(logbook, someVisit(1));
    await addVisit(logbook, someVisit(2));
    const month = join(logbook, 'sweeps/2026-03');
    rmSync(join(month, readdirSync(month).sort()[0] as string));
    const { code, err } = await runCommand(['page', '--logbook', logbook, '--out', 'p.html'], {
      cwd: logbook,
    });
    expect({ code, err }).toEqual({ code: 4, err: expect.stringContaining('the file is gone') });
    expect(dataIn(join(logbook, 'p.html')).sweeps.visits.map(({ visit }) => visit)).toEqual([2]);
  });

  it.each([
    [['--lan'], '--lan'],
    [['--port', '80'], '--port'],
    [['--serve', '--out', 'x.html'], '--out'],
    [['--serve', '--port', '70000'], '--port'],
    [['--serve', '--port', 'http'], '--port'],
  ])('refuses %j', async (options, field) => {
    const logbook = await newLogbook();
    const { code, err } = await runCommand(['page', '--logbook', logbook, ...options]);
    expect({ code, err }).toEqual({ code: 2, err: expect.stringContaining(field) });
  });
});

describe('the file of a page', () => {
  it('takes data as they are, dollar signs and all', () => {
    const data = { program: '$& $1 $`' } as PageData;
    expect(pageWith('a<!-- page data -->b', data)).toBe(
      'a<script type="application/json" id="page-data">{"program":"$\\u0026 $1 $`"}</script>b',
    );
  });

  it('is written over a page, but over nothing else', async () => {
    const folder = temporaryFolder();
    const page = join(folder, 'page.html');
    await writePage(page, '<meta name="generator" content="Turfwire">1');
    await writePage(page, '<meta name="generator" content="Turfwire">2');
    expect(readFileSync(page, 'utf8')).toMatch(/2$/u);
    const journal = join(folder, 'journal.csv');
    writeFileSync(journal, 'sequence\n');
    await expect(writePage(journal, 'x')).rejects.toMatchObject({
      code: 'page-file-foreign',
      place: { file: journal },
    });
    expect(readFileSync(journal, 'utf8')).toBe('sequence\n');
    expect(readdirSync(folder).sort()).toEqual(['journal.csv', 'page.html']);
  });

  it('says why it cannot be written', async () => {
    const path = join(temporaryFolder(), 'no-such-folder', 'page.html');
    await expect(writePage(path, 'x')).rejects.toMatchObject({ code: 'page-file-refused' });
    expect(existsSync(path)).toBe(false);
  });
});

describe('an answer in a form that the page does not know', () => {
  it('leaves a gap with words, and the rest of the page as it was', () => {
    const odd = { ...PAGE_SEED, plan: { data: { radials: 'many' }, missing: null } } as unknown as PageData;
    expect(showable(odd)).toEqual({
      ...PAGE_SEED,
      plan: {
        data: null,
        missing: { why: 'This answer has a form that the page cannot show.', command: 'turfwire plan' },
      },
    });
  });

  it('that the page cannot do without is an error', () => {
    const odd = { ...PAGE_SEED, readings: 'none' } as unknown as PageData;
    expect(() => showable(odd)).toThrow(expect.objectContaining({ code: 'page-data-wrong' }));
  });
});
