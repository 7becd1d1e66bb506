import type { Grid } from '../codec/grid.ts';
import type { Reply } from '../codec/messages.ts';
import { type AssembledSweep, SweepAssembler } from '../codec/sweep-assembler.ts';
import type { Progress } from '../instrument.ts';
import type { Heard } from '../line-link.ts';
import type { Conversation } from './conversation.ts';
import { sweepFailed } from './protocol-errors.ts';
import { FRUITLESS_REASKS } from './times.ts';

/** How one stretch of listening ended: the instrument closed it, or points stopped coming in spite of its signs of life. */
type Stretch = 'closed' | 'stalled';

/**
 * One sweep over the line protocol: `walk`, then `again` for what is missing, until the checksum of the whole proves it.
 *
 * @returns the sweep and the count of requests for missing points
 * @throws UserError of kind `instrument`
 */
export async function takeSweep(
  conversation: Conversation,
  grid: Grid,
  progress: Progress,
): Promise<{ sweep: AssembledSweep; reAsks: number }> {
  let walk: Walk | null = null;
  const { id, outcome } = await conversation.ask<Stretch>({
    request: (id) => {
      walk = new Walk(conversation, id, grid, progress);
      return { kind: 'walk', id, startHz: grid.startHz, stopHz: grid.stopHz, points: grid.points };
    },
    judge: (reply) => (walk as Walk).judge(reply),
    firstMs: conversation.times.replyMs,
    idleMs: conversation.times.silenceMs,
  });
  const started = walk as Walk | null;
  if (started === null || started.id !== id) throw new Error('an answer without a request');
  if ('result' in outcome && outcome.result === 'stalled') await started.giveUp();
  const reAsks = await started.mend();
  return { sweep: started.assembler.sweep() as AssembledSweep, reAsks };
}

/** One walk along the grid, as its points come in. */
class Walk {
  readonly id: number;
  readonly assembler: SweepAssembler;
  readonly #conversation: Conversation;
  readonly #grid: Grid;
  readonly #progress: Progress;
  #newestAt = performance.now();
  #mismatches = 0;
  /** From the first line of the sweep until the instrument closes it. */
  #walking = false;
  #signOfLife = false;

  constructor(conversation: Conversation, id: number, grid: Grid, progress: Progress) {
    this.id = id;
    this.assembler = new SweepAssembler(id, grid);
    this.#conversation = conversation;
    this.#grid = grid;
    this.#progress = progress;
  }

  judge(reply: Reply): Heard<Stretch> {
    if (reply.kind === 'alive') return this.#walking ? this.#judgeSign(reply.sweep) : 'ignored';
    switch (this.assembler.accept(reply)) {
      case 'not-ours':
        return 'ignored';
      case 'other-grid':
        throw this.#failed(
          'sweep-other-grid',
          'sweeps other frequencies than those asked for',
          'its firmware is at fault',
        );
      case 'checksum-mismatch':
        this.#countMismatch();
        break;
      case 'taken':
        if (reply.kind === 'point') this.#newestAt = performance.now();
        this.#progress(this.assembler.received, this.#grid.points);
        break;
      default:
    }
    this.#walking = reply.kind !== 'end';
    return this.#walking ? 'heard' : { result: 'closed' };
  }

  /**
   * Asks for what is missing, gap by gap.
   * @returns how often it asked
   */
  async mend(): Promise<number> {
    let reAsks = 0;
    let fruitless = 0;
    for (let again = this.assembler.nextAgain(); again !== null; again = this.assembler.nextAgain()) {
      const request = again;
      const before = this.#knowledge();
      this.#signOfLife = false;
      const outcome = await this.#conversation.once<Stretch>(this.id, {
        request: () => request,
        judge: (reply) => this.judge(reply),
        firstMs: this.#conversation.times.againMs,
        idleMs: this.#conversation.times.againMs,
      });
      reAsks++;
      if ('result' in outcome && outcome.result === 'stalled') await this.giveUp();
      // While it still measures it leaves the request alone, and says that it lives.
      const gained = this.#knowledge() > before || this.#signOfLife;
      fruitless = gained ? 0 : fruitless + 1;
      if (fruitless >= FRUITLESS_REASKS) throw this.#incomplete();
    }
    return reAsks;
  }

  /** Stops an instrument that lives but does not measure. */
  async giveUp(): Promise<never> {
    await stopSweep(this.#conversation);
    const seconds = Math.round(this.#conversation.times.progressMs / 1000);
    throw this.#failed(
      'sweep-stalled',
      `sent no new point for ${seconds} s`,
      'switch it off and on, and measure again',
    );
  }

  /** A sign of life about another sweep, or none, says that this one is over. */
  #judgeSign(sweep: number): Heard<Stretch> {
    if (sweep !== this.id) {
      this.#walking = false;
      return { result: 'closed' };
    }
    this.#signOfLife = true;
    return performance.now() - this.#newestAt > this.#conversation.times.progressMs
      ? { result: 'stalled' }
      : 'heard';
  }

  #countMismatch(): void {
    this.#mismatches++;
    if (this.#mismatches < 2) return;
    throw this.#failed(
      'sweep-checksum',
      'twice sent points that do not add up',
      'check the cable, and measure again',
    );
  }

  #knowledge(): number {
    return this.assembler.received + (this.assembler.ended ? 1 : 0);
  }

  #incomplete(): Error {
    const { received } = this.assembler;
    const what = `sent ${received} of ${this.#grid.points} points intact, and not the rest despite ${FRUITLESS_REASKS} requests`;
    return this.#failed('sweep-incomplete', what, 'check the cable and its length, and measure again');
  }

  #failed(code: string, what: string, advice: string): Error {
    return sweepFailed(this.#conversation.link.name, code, what, advice);
  }
}

/** Stops whatever the instrument is doing. */
export async function stopSweep(conversation: Conversation): Promise<void> {
  await conversation.ask<true>({
    request: (id) => ({ kind: 'halt', id }),
    judge: (reply, id) => (reply.kind === 'still' && reply.id === id ? { result: true } : 'ignored'),
    firstMs: conversation.times.replyMs,
    idleMs: conversation.times.replyMs,
  });
}
