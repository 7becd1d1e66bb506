/** The front door of the room: what the commands use of a logbook. */
export { checkLogbook } from './check.ts';
export { createLogbook } from './create-logbook.ts';
export {
  JOURNAL_FILE,
  type Logbook,
  lastShots,
  openGrownLogbook,
  openLogbook,
  SITE_FILE,
} from './open-logbook.ts';
export { newestStandards } from './standards.ts';
export { loadShot, measuredVisit, movedToPlane, type OnLost } from './visit.ts';
export { type Appended, addVisit, appendEvents, type WriteOptions, withWriter } from './write-logbook.ts';
export type { Amiss, NewShot, NewVisit, Writer } from './writer.ts';
