import { UserError } from '../../src/core/user-error.ts';

/** Code and field of the error that a call throws for the user; anything else is thrown on. */
export function userErrorOf(call: () => unknown): [code: string, field: string | undefined] {
  try {
    call();
  } catch (error) {
    if (error instanceof UserError) return [error.code, error.place.field];
    throw error;
  }
  throw new Error('nothing was thrown');
}
