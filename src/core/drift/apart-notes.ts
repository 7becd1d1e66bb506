import { NO_NOTES, type NoteEvidence } from './notes.ts';

/** An earlier fault as the notes tell it. */
export interface EarlierFault {
  /** `visits 13 and 14` */
  readonly visits: string;
  /** `2026-02-20`; null where none was noted. */
  readonly repairedOn: string | null;
}

/** What earlier faults that came and went say of the one that is judged. */
export function apartEvidence(earlier: readonly EarlierFault[]): NoteEvidence {
  if (earlier.length === 0) return NO_NOTES;
  return {
    ...NO_NOTES,
    isRecurring: earlier.some(({ repairedOn }) => repairedOn === null),
    sentences: earlier.map(({ visits, repairedOn }) =>
      repairedOn === null
        ? {
            causes: ['intermittent'],
            text: `${visits} stood apart before, and that went with no repair noted: so does a contact that comes and goes`,
          }
        : {
            causes: ['series-joint', 'intermittent'],
            text: `${visits} stood apart before, until the repair of ${repairedOn}: look at what was mended first`,
          },
    ),
  };
}
