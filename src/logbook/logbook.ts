/** The front door of the room: what the commands use of a logbook. */
export { checkLogbook } from './check.ts';
export { createLogbook } from './create-logbook.ts';
export { type Logbook, openLogbook } from './open-logbook.ts';
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
