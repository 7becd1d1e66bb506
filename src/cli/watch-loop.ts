import { UserError } from '../core/user-error.ts';
import { plural } from '../formats/words.ts';

/** The world as a watch sees it; a test gives its own. */
export interface WatchWorld {
  /** A clock that nobody sets, ms. */
  steadyMs(): number;
  /** The clock on the wall, ms since 1970; it may jump. */
  wallMs(): number;
  /** Ends early when the watch is stopped. */
  sleep(ms: number): Promise<void>;
  readonly stopped: boolean;
  /** One line for whoever reads the log. */
  tell(text: string): void;
}

/** How often to measure, how many times, and what a round does. */
export interface WatchPlan {
  readonly everyMs: number;
  /** Ends after so many rounds; null for never. */
  readonly rounds: number | null;
  /**
   * Measures once and says in a line what was found.
   * @param again - another try at the round that failed last
   */
  round(again: boolean): Promise<string>;
}

/** The longest wait before an instrument that is gone is looked for again. */
const LONGEST_RETRY_MS = 60_000;
const FIRST_RETRY_MS = 1000;
const STATUS_EVERY_MS = 3_600_000;
/** A clock that moved by more than this against the steady one was set. */
const JUMP_MS = 30_000;

/** Troubles that pass by themselves, or that someone mends while the watch runs. */
const PASSING: ReadonlySet<string> = new Set([
  'disk-full',
  'disk-refuses',
  'logbook-locked',
  'logbook-lock-lost',
]);

/**
 * Measures in steady rounds until it is stopped. Rounds are counted on a clock that nobody sets, so a jump of the wall
 * clock neither skips nor repeats one; a round that takes too long lets the next ones go. An instrument that is gone is
 * looked for again with growing delays until the next round is due.
 *
 * @throws UserError what went wrong, when the first round shows that this can never work
 */
export async function watchLoop({ everyMs, rounds, round }: WatchPlan, world: WatchWorld): Promise<void> {
  const startMs = world.steadyMs();
  const log = new StatusLog(world);
  for (let number = 0; !world.stopped; ) {
    log.noticeJump();
    const dueMs = startMs + (number + 1) * everyMs;
    await attemptRound(round, dueMs, number === 0, log, world);
    const next = Math.floor((world.steadyMs() - startMs) / everyMs) + 1;
    log.skipped(Math.min(next, rounds ?? next) - number - 1);
    if (rounds !== null && next >= rounds) break;
    number = next;
    await sleepUntil(startMs + next * everyMs, world);
  }
  log.tellStatus(true);
}

/** Tries until the round is done, or the next one is due. */
async function attemptRound(
  round: WatchPlan['round'],
  dueMs: number,
  first: boolean,
  log: StatusLog,
  world: WatchWorld,
): Promise<void> {
  let again = false;
  for (let delayMs = FIRST_RETRY_MS; !world.stopped; delayMs = Math.min(2 * delayMs, LONGEST_RETRY_MS)) {
    try {
      log.done(await round(again));
      return;
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      if (error.code === 'interrupted') return;
      const passes = error.kind === 'instrument' || PASSING.has(error.code);
      if (!passes && first) throw error;
      log.trouble(error.message);
    }
    again = true;
    if (world.steadyMs() + delayMs >= dueMs) break;
    await world.sleep(delayMs);
  }
  if (!world.stopped) log.missed();
}

async function sleepUntil(atMs: number, world: WatchWorld): Promise<void> {
  // In short stretches, because a timer counts on through the sleep of a computer, or not at all.
  while (!world.stopped && world.steadyMs() < atMs) {
    await world.sleep(Math.min(atMs - world.steadyMs(), LONGEST_RETRY_MS));
  }
}

/** Says much when something changes, and one line an hour when nothing does. */
class StatusLog {
  readonly #world: WatchWorld;
  #rounds = 0;
  #missed = 0;
  #skipped = 0;
  #status = '';
  #trouble: string | null = null;
  #toldMs = Number.NEGATIVE_INFINITY;
  #wallAheadMs: number;

  constructor(world: WatchWorld) {
    this.#world = world;
    this.#wallAheadMs = world.wallMs() - world.steadyMs();
  }

  done(status: string): void {
    this.#rounds++;
    this.#status = status;
    if (this.#trouble !== null) this.#world.tell('it works again');
    this.#trouble = null;
    this.tellStatus(false);
  }

  /** The same trouble is told once, however often it is met. */
  trouble(message: string): void {
    if (message !== this.#trouble) this.#world.tell(`${message}; the watch goes on and tries again`);
    this.#trouble = message;
  }

  missed(): void {
    this.#missed++;
    this.tellStatus(false);
  }

  /** Rounds that were due while one before them went on; told at the first. */
  skipped(count: number): void {
    if (count > 0 && this.#skipped === 0) {
      this.#world.tell('a round took longer than --every: whatever fell due meanwhile is skipped');
    }
    this.#skipped += count;
  }

  noticeJump(): void {
    const aheadMs = this.#world.wallMs() - this.#world.steadyMs();
    const jumpMs = aheadMs - this.#wallAheadMs;
    this.#wallAheadMs = aheadMs;
    if (Math.abs(jumpMs) < JUMP_MS) return;
    const way = jumpMs > 0 ? 'forward' : 'back';
    this.#world.tell(
      `the clock was set ${way} by ${Math.round(Math.abs(jumpMs) / 1000)} s; rounds go on as before`,
    );
  }

  tellStatus(last: boolean): void {
    const now = this.#world.steadyMs();
    // A second of grace, so that hourly rounds do not miss their own line.
    if (!last && now - this.#toldMs < STATUS_EVERY_MS - 1000) return;
    this.#toldMs = now;
    const missed = this.#missed > 0 ? `, ${this.#missed} missed` : '';
    const skipped = this.#skipped > 0 ? `, ${this.#skipped} skipped` : '';
    const end = last ? 'stopped after ' : '';
    this.#world.tell(
      `${end}${plural(this.#rounds, 'round')}${missed}${skipped}${this.#status === '' ? '' : `; ${this.#status}`}`,
    );
  }
}
