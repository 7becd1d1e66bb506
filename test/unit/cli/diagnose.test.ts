import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CAUSES } from '../../../src/core/drift/cause.ts';
import type { MeasuredVisit } from '../../../src/core/record.ts';
import type { Site } from '../../../src/core/site.ts';
import { addVisit, createLogbook } from '../../../src/logbook/logbook.ts';
import { type DriftCase, generateCase } from '../../support/drift/generate-case.ts';
import { VARIANTS, type Variant } from '../../support/drift/variants.ts';
import { siteText, writeVisits } from '../../support/drift/write-case.ts';
import { runCommand } from '../../support/fake-io.ts';
import { temporaryFolder } from '../../support/logbooks.ts';

interface Answer {
  readonly causes: readonly {
    readonly cause: string;
    readonly probability: number;
    readonly estimate: { name: string; value: number; unit: string; expandedUncertainty: number } | null;
    readonly evidence: readonly string[];
    readonly checkFirst: string;
  }[];
}

/** The first case of a variant from a seed on with this cause, of large size. */
function caseOf(cause: string, from = 1): DriftCase {
  for (let seed = from; ; seed++) {
    const found = generateCase(VARIANTS[0] as Variant, seed);
    if (found.cause === cause && (found.size === 'large' || cause === 'none')) return found;
  }
}

const joint = caseOf('series-joint', 200);

function filesOf({ before, after, site }: DriftCase): { cwd: string; args: string[] } {
  const cwd = temporaryFolder();
  writeFileSync(join(cwd, 'site.json'), siteText(site as Site));
  const args = [
    '--before',
    ...writeVisits(cwd, 'before', before),
    '--after',
    ...writeVisits(cwd, 'after', after),
  ];
  return { cwd, args: ['diagnose', ...args, '--site', 'site.json'] };
}

describe('diagnose on loose files', () => {
  it('prints exactly the public shape, and the joint first', async () => {
    const { cwd, args } = filesOf(joint);
    const ran = await runCommand([...args, '--json'], { cwd });
    expect(ran.code).toBe(0);
    const { causes } = ran.json<Answer>();
    expect(causes.map(({ cause }) => cause).sort()).toEqual([...CAUSES].sort());
    expect(causes[0]?.cause).toBe('series-joint');
    for (const cause of causes) {
      expect(Object.keys(cause).sort()).toEqual(
        ['cause', 'checkFirst', 'estimate', 'evidence', 'probability'].sort(),
      );
      if (cause.estimate !== null) {
        expect(Object.keys(cause.estimate).sort()).toEqual(['expandedUncertainty', 'name', 'unit', 'value']);
      }
    }
    expect(Math.abs(causes.reduce((sum, { probability }) => sum + probability, 0) - 1)).toBeLessThan(1e-9);
  });

  it('says to people what, how sure, what it cannot tell and what to check first', async () => {
    const { cwd, args } = filesOf(joint);
    const { out } = await runCommand(args, { cwd });
    expect(out).toMatch(/^Most likely a joint in the common path has gained resistance/u);
    expect(out).toContain('Check first: ');
    expect(out).toContain('Cannot be told: ');
    expect(out).toContain('a corroding common joint first lowers the SWR');
  });

  it('answers without a site file, and says what stood in', async () => {
    const { cwd, args } = filesOf(joint);
    const { out } = await runCommand(args.slice(0, -2), { cwd });
    expect(out).toContain('a guess stands in');
  });

  it('uses the reference load where it is swept', async () => {
    const moved = caseOf('instrument', 300);
    const { cwd, args } = filesOf(moved);
    const load = (group: string, visits: readonly MeasuredVisit[]) => writeVisits(cwd, group, visits);
    const ran = await runCommand(
      [
        ...args,
        ...['--reference-before', ...load('load-before', moved.referenceBefore)],
        ...['--reference-after', ...load('load-after', moved.referenceAfter), '--json'],
      ],
      { cwd },
    );
    const [first] = ran.json<Answer>().causes;
    expect(first?.cause).toBe('instrument');
    expect(first?.estimate).not.toBeNull();
    expect(first?.evidence.join()).toContain('the reference load moved too');
  });

  it('is told what is missing', async () => {
    const { cwd, args } = filesOf(joint);
    const half = await runCommand(['diagnose', '--before', args[2] as string], { cwd });
    expect(half.code).toBe(2);
    expect(half.err).toContain('--after');
    writeFileSync(join(cwd, 'far.csv'), 'frequency_hz,resistance_ohm,reactance_ohm\n1e9,50,0\n2e9,50,0\n');
    const apart = await runCommand(['diagnose', '--before', args[2] as string, '--after', 'far.csv'], {
      cwd,
    });
    expect(apart.code).toBe(1);
    writeFileSync(join(cwd, 'swr.csv'), 'MHz,SWR\n7.0,1.5\n7.1,1.2\n7.2,1.4\n');
    const scalar = await runCommand(['diagnose', '--before', 'swr.csv', '--after', 'swr.csv'], { cwd });
    expect(scalar.code).toBe(1);
    expect(scalar.err).toContain('resistance and reactance are needed');
  });
});

async function logbookOf({ before, after, site }: DriftCase): Promise<string> {
  const folder = join(temporaryFolder(), 'field');
  await createLogbook(folder, JSON.parse(siteText(site as Site)));
  let day = 1;
  for (const { shots } of [...before, ...before, ...after, ...after, ...after]) {
    const time = `2026-03-${String(day++).padStart(2, '0')}T10:00:00Z`;
    await addVisit(folder, {
      time,
      shots: shots.map((sweep) => ({ sweep, plane: 'feedpoint', target: 'antenna', source: 'generated' })),
    });
  }
  return folder;
}

describe('diagnose on a logbook', () => {
  it('finds its own baseline and the visit of the change', async () => {
    const folder = await logbookOf(joint);
    const ran = await runCommand(['diagnose', '--logbook', folder, '--json']);
    const answer = ran.json<Answer & { changeAt: number; visitsBefore: number[] }>();
    expect(answer.changeAt).toBe(2 * joint.before.length + 1);
    expect(answer.visitsBefore).toEqual(Array.from({ length: 2 * joint.before.length }, (_, i) => i + 1));
    expect(answer.causes[0]?.cause).toBe('series-joint');
  });

  it('takes visits by number', async () => {
    const folder = await logbookOf(joint);
    const args = ['diagnose', '--logbook', folder, '--before', '1', '--after', '2', '--json'];
    const ran = await runCommand(args);
    expect(ran.json<Answer>().causes[0]?.cause).toBe('none');
    const unknown = await runCommand(['diagnose', '--logbook', folder, '--before', '1', '--after', '99']);
    expect(unknown.err).toContain('no visit 99');
    expect(unknown.code).toBe(2);
  });

  it('gives one answer with a cache, without one and with a spoilt one', async () => {
    const folder = await logbookOf(joint);
    const ask = async () => (await runCommand(['diagnose', '--logbook', folder])).out;
    const first = await ask();
    expect(await ask()).toBe(first);
    writeFileSync(join(folder, 'derived/drift-features.bin'), 'spoilt');
    writeFileSync(join(folder, 'derived/diagnosis.json'), '{');
    expect(await ask()).toBe(first);
    rmSync(join(folder, 'derived'), { recursive: true });
    expect(await ask()).toBe(first);
  });

  it('asks for a healthy visit when there is but one', async () => {
    const folder = join(temporaryFolder(), 'field');
    await createLogbook(folder, JSON.parse(siteText(joint.site as Site)));
    const ran = await runCommand(['diagnose', '--logbook', folder]);
    expect(ran.code).toBe(1);
    expect(ran.err).toContain('at least two visits');
  });
});
