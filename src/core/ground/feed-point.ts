import { add, type Complex } from '../complex.ts';
import { requirePositive } from './free-space.ts';
import { groundIntegrals } from './ground-integrals.ts';
import { type GroundLoss, groundLoss } from './ground-loss.ts';
import type { GroundSystem } from './ground-system.ts';
import { electricalHeightRad, monopoleImpedance, nearHalfWave } from './monopole.ts';

/** A ground system, with the radiation resistance at the base where the site knows better. */
export interface FeedPointSystem extends GroundSystem {
  /** Replaces the computed one of a straight monopole, e.g. for a loaded or bent radiator. */
  readonly radiationResistanceOhm?: number | undefined;
}

/**
 * Impedance at the base: the monopole over perfect ground, what the real ground changes (ΔZ form)
 * and the loss in the wires. The radiator's own loss, base insulator and matching parts are not in it.
 *
 * Of the handbook's six radial fields it meets the feed resistance within 3 Ω.
 *
 * @throws UserError `near-half-wave` where the base current cannot be told, and as {@link groundIntegrals}
 */
export function feedPointImpedanceOhm(system: FeedPointSystem): Complex {
  const { monopole, frequencyHz, radiationResistanceOhm } = system;
  const { atBaseOhm } = monopoleImpedance(monopole, frequencyHz);
  if (atBaseOhm === null) throw nearHalfWave(monopole, frequencyHz);
  if (radiationResistanceOhm !== undefined) requireRadiationResistance(radiationResistanceOhm);
  const { reactionOhm, conductorOhm } = groundIntegrals(system);
  return add(
    { re: radiationResistanceOhm ?? atBaseOhm.re, im: atBaseOhm.im },
    { re: reactionOhm.re + conductorOhm, im: reactionOhm.im },
  );
}

/** Where the power goes, by the |H|² form. */
export interface Efficiency extends GroundLoss {
  /** Referred as the losses are. */
  readonly radiationResistanceOhm: number;
  /** Radiated power over power fed in, 0 to 1, as the method has it. */
  readonly fraction: number;
  /** 10·log10 of the fraction, at most 0. */
  readonly lossDb: number;
  /** The same with the published error of the method: from worst to best. */
  readonly range: EfficiencyRange;
}

interface EfficiencyRange {
  readonly fraction: { readonly low: number; readonly high: number };
  readonly lossDb: { readonly low: number; readonly high: number };
  /** Loss resistance that would give these. */
  readonly lossOhm: { readonly low: number; readonly high: number };
}

/**
 * Part of the power that is radiated, Rr/(Rr + Rg + Rwire), with Rg of the |H|² form. At any height:
 * near a half wave everything is referred to the current loop, where a given radiation resistance at
 * the base cannot be used and the computed one stands.
 *
 * The range holds the method's published error alone. What is not known of the soil comes on top, and
 * so do the radiator's own loss and coils.
 *
 * @throws UserError `not-positive` and as {@link groundLoss}
 */
export function efficiency(system: FeedPointSystem): Efficiency {
  const loss = groundLoss(system);
  const radiationResistanceOhm = usedRadiationResistance(system, loss.referredTo);
  const fraction = radiationResistanceOhm / (radiationResistanceOhm + loss.lossOhm + loss.conductorOhm);
  const lossDb = 10 * Math.log10(fraction);
  const best = Math.min(0, lossDb - loss.biasDb.low);
  const worst = lossDb - loss.biasDb.high;
  const ofDb = (db: number): number => 10 ** (db / 10);
  const lossOf = (db: number): number => radiationResistanceOhm * (1 / ofDb(db) - 1);
  return {
    ...loss,
    radiationResistanceOhm,
    fraction,
    lossDb,
    range: {
      lossDb: { low: worst, high: best },
      fraction: { low: ofDb(worst), high: ofDb(best) },
      lossOhm: { low: lossOf(best), high: lossOf(worst) },
    },
  };
}

function usedRadiationResistance(system: FeedPointSystem, referredTo: GroundLoss['referredTo']): number {
  const { monopole, frequencyHz, radiationResistanceOhm } = system;
  if (radiationResistanceOhm !== undefined) requireRadiationResistance(radiationResistanceOhm);
  const loop = monopoleImpedance(monopole, frequencyHz).atLoopOhm.re;
  if (referredTo === 'loop') return loop;
  return radiationResistanceOhm ?? loop / Math.sin(electricalHeightRad(monopole, frequencyHz)) ** 2;
}

function requireRadiationResistance(resistanceOhm: number): void {
  requirePositive(resistanceOhm, 'antenna.radiationResistance', 'ohms');
}
