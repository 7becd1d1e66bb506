/** The front door of the room: what the commands use of a logbook. */
export { type CheckReport, checkLogbook } from './check.ts';
export { createLogbook } from './create-logbook.ts';
export { JOURNAL_FILE, type Logbook, openLogbook, SITE_FILE } from './open-logbook.ts';
export { newestStandards, type StandardSet } from './standards.ts';
export { loadShot, measuredVisit, movedToPlane } from './visit.ts';
export {
  addVisit,
  appendEvents,
  type NewShot,
  type NewStandard,
  type NewVisit,
  type WriteOptions,
  type Writer,
  withWriter,
} from './writer.ts';
