#!/usr/bin/env node
import { processIo } from './io.ts';
import { run } from './program.ts';

// A reader that closes early (`turfwire history | head -3`) is no error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

process.exitCode = await run(process.argv.slice(2), processIo());
