import type { Command } from 'commander';
import { statedResistance } from '../core/ground/stated-resistance.ts';
import { fieldStateAt } from '../core/layout/field-state.ts';
import { radialsHang } from '../core/layout/raised.ts';
import { isSameField } from '../core/layout/same-field.ts';
import type { GroundKnowledge } from '../core/proof/ground-fit.ts';
import { lastStepOf, lastStepVerdict } from '../core/proof/last-step.ts';
import { type PlannedResistance, plannedResistance } from '../core/proof/planned-resistance.ts';
import { type Progress, progressOf } from '../core/proof/progress.ts';
import { progressSteps } from '../core/proof/progress-steps.ts';
import type { StrengthComparison } from '../core/proof/strength.ts';
import {
  assumedBandNotes,
  compareStrengthIn,
  strengthOf,
  type TimedStrength,
} from '../core/proof/strength-sides.ts';
import type { Verdict } from '../core/proof/verdict.ts';
import { parseQuantity } from '../core/quantity.ts';
import { UNKNOWN_QUANTITY } from '../core/quantity-with-uncertainty.ts';
import type { Site } from '../core/site.ts';
import type { Band } from '../core/sweep/bands.ts';
import { UserError } from '../core/user-error.ts';
import { visitsInBand } from '../core/visits-in-band.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { bandsMeasured, bandsOfLogbook } from './compared-bands.ts';
import { printWithoutLost } from './failure.ts';
import type { Io } from './io.ts';
import { addLogbookOptions, type LogbookOptions } from './logbook-options.ts';
import { countingVisits, type MeasuredState, measuredInBand } from './logbook-visits.ts';
import { openOwnLogbook } from './own-logbook.ts';
import { progressJson } from './progress-json.ts';
import { progressText } from './progress-text.ts';
import { reversalCommands } from './reversal-commands.ts';

interface ProgressFlags extends LogbookOptions {
  readonly band?: string;
  readonly next?: string;
  readonly length?: string;
}

/** All that `progress` found. */
export interface ProgressFound {
  readonly logbook: Logbook;
  /** As the user gave them, for commands that can be pasted. */
  readonly flags: LogbookOptions;
  readonly band: Band;
  /** Bands that the logbook holds too. */
  readonly otherBands: readonly Band[];
  readonly states: readonly MeasuredState[];
  /** Stored sweeps that were done without. */
  readonly lost: readonly UserError[];
  /** Visits that others of their state stand for. */
  readonly spared: number;
  readonly oddVisits: readonly string[];
  readonly progress: Progress;
  /** What `compare` says of R over the last step; null where it can say nothing. */
  readonly lastStep: Verdict | null;
  /** Received strength of each state against the first; null where no place was read in both. */
  readonly strength: readonly (StrengthComparison | null)[];
  /** What is said of levels that name no band. */
  readonly levelNotes: readonly string[];
  /** What each state was planned to give; null where it was not planned, or the site does not tell enough. */
  readonly planned: readonly (PlannedResistance | null)[];
  /** The commands of a reversal, where the last step is doubtful. */
  readonly reversal: readonly string[] | null;
}

/** `turfwire progress`: what each handful of wires did, and whether to lay more. */
export function register(command: Command, io: Io): void {
  addLogbookOptions(command)
    .option('--band <NAME>', 'band, such as 40m (default: the first of the site that was measured)')
    .option('--next <COUNT>', 'how many wires you would lay next (default: as many as there are)')
    .option('--length <LENGTH>', 'their length, such as 6m (default: the mean of those that lie there)')
    .addHelpText('after', '\nExample: turfwire progress --logbook field --band 40m --next 8')
    .action((flags: ProgressFlags) => progress(io, flags));
}

async function progress(io: Io, flags: ProgressFlags): Promise<void> {
  const found = await findProgress(io, await openOwnLogbook(io, flags), flags);
  const answer = { json: progressJson(found), text: progressText(found) };
  printWithoutLost(io, answer, found.lost, flags.json === true);
}

/**
 * What the measured field states of a logbook tell.
 * @throws UserError where no band can be told, or every sweep of it is lost
 */
export async function findProgress(io: Io, logbook: Logbook, flags: ProgressFlags): Promise<ProgressFound> {
  const { site } = logbook;
  const bands = await bandsOfLogbook(flags, logbook);
  const band = bands.find((one) => visitsInBand(logbook.visits, one).length > 0) ?? (bands[0] as Band);
  const { states, line, lost, spared } = await measuredInBand(logbook, band);
  if (states.length === 0 && lost[0] !== undefined) throw lost[0];
  const inputs = states.map((measured) => ({
    radials: measured.state.radials.length,
    wireM: measured.state.wireM,
    laid: measured.state.radials,
    time: measured.state.since ?? measured.visits[0]?.time ?? null,
    visits: countingVisits(measured),
  }));
  const { steps, oddVisits } = progressSteps(inputs, band, { instrument: site.instrument, line });
  const now = states.at(-1)?.state ?? null;
  const ground = groundOf(site, band);
  const levels = levelsIn(logbook, band);
  const lastStep = lastStepOf(steps);
  const judging = { antennaKind: site.antenna.kind, instrument: site.instrument, line };
  const verdict = lastStep === null ? null : lastStepVerdict(lastStep, inputs, band, judging);
  const told = progressOf(steps, {
    ground,
    worthwhileDb: site.worthwhileDb,
    next: nextOf(flags, now === null ? 0 : now.wireM / now.radials.length),
    lastStep: verdict,
    lastStrength: lastStep === null ? null : levels.between(states[lastStep.before], states[lastStep.after]),
  });
  const known = {
    logbook,
    flags,
    band,
    otherBands: bands.filter((one) => one !== band && visitsInBand(logbook.visits, one).length > 0),
    states,
    lost,
    spared,
    oddVisits,
    strength: states.map((_, i) => (i === 0 ? null : levels.between(states[0], states[i]))),
    levelNotes: levels.notes,
    planned: states.map(({ state }, i) =>
      plannedResistance(
        settingOf(site, ground),
        state.radials,
        steps[i]?.resistanceAtResonanceOhm ?? UNKNOWN_QUANTITY,
      ),
    ),
    progress: told,
    lastStep: verdict,
  };
  return { ...known, reversal: told.doubtful ? reversalCommands(io, known) : null };
}

function nextOf({ next, length }: ProgressFlags, meanLengthM: number): ProgressWires | null {
  if (next === undefined && length === undefined) return null;
  const radials = Number(next ?? Number.NaN);
  const lengthM = length === undefined ? meanLengthM : parseQuantity(length, 'length', '--length');
  const wrong = (field: string, message: string): UserError =>
    new UserError('next-wrong', message, { kind: 'command-line', place: { field } });
  if (!Number.isInteger(radials) || radials < 1)
    throw wrong('--next', `needs a count of wires, got "${next ?? ''}"`);
  if (!(lengthM > 0))
    throw wrong('--length', 'needs a length above 0, because no wires lie there yet to take it from');
  return { radials, lengthM };
}

type ProgressWires = { readonly radials: number; readonly lengthM: number };

/** Wire of 1.6 mm where the site does not say: its thickness hardly matters. */
const USUAL_WIRE_DIAMETER_M = 0.0016;

function groundOf(site: Site, band: Band): GroundKnowledge | null {
  const { antenna, radials, soil } = site;
  const { kind, heightM, diameterM } = antenna;
  const { radiationResistanceOhm } = statedResistance(site, band);
  if (kind === 'half-wave' || heightM === null || diameterM === null) return null;
  return {
    monopole: { heightM, radiusM: diameterM / 2 },
    wireRadiusM: (radials?.diameterM ?? USUAL_WIRE_DIAMETER_M) / 2,
    soil,
    radiationResistanceOhm,
  };
}

/** What a plan was made for; null where the site does not tell enough, or the base is raised. */
function settingOf(
  { antenna }: Site,
  ground: GroundKnowledge | null,
): Parameters<typeof plannedResistance>[0] {
  if (ground === null || ground.soil === null || radialsHang(antenna)) return null;
  const { monopole, soil, wireRadiusM, radiationResistanceOhm } = ground;
  return { monopole, soil, wireRadiusM, radiationResistanceOhm: radiationResistanceOhm ?? undefined };
}

/** Received levels of a band. */
interface Levels {
  /** What is said of those that name no band. */
  readonly notes: readonly string[];
  /** Null where no place was read over both fields. */
  between(first: MeasuredState | undefined, second: MeasuredState | undefined): StrengthComparison | null;
}

function levelsIn(logbook: Logbook, { band }: Band): Levels {
  const readings = strengthOf(logbook.readings);
  const measured = bandsMeasured(logbook);
  const assumedBand = measured[0] ?? band;
  const over = ({ state }: MeasuredState): TimedStrength[] =>
    readings.filter(({ time }) => isSameField(fieldStateAt(logbook.fieldStates, time), state));
  return {
    notes: assumedBandNotes(readings, assumedBand, measured),
    between: (first, second) => {
      if (first === undefined || second === undefined) return null;
      const found = compareStrengthIn(band, { before: over(first), after: over(second) }, assumedBand);
      return found === null || found.places.length === 0 ? null : found;
    },
  };
}
