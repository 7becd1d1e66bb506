import { UserError } from '../../core/user-error.ts';
import { type PageData, serialisePageData } from '../../formats/page-data.ts';
import type { Description } from '../../instrument/description/description.ts';
import {
  readDescription,
  shippedDescription,
  shippedDescriptions,
} from '../../instrument/description/read-description.ts';
import { printAnswer } from '../answer.ts';
import type { Io } from '../io.ts';
import { stoppable } from '../stop-signal.ts';
import { followLogbook } from './follow-logbook.ts';
import { builtPage, pageWith } from './page-file.ts';
import { type Reach, startPageServer } from './page-server.ts';

/** What is to be served, and how. */
export interface Serving {
  readonly folder: string;
  readonly reach: Reach;
  readonly port: number;
  readonly json: boolean;
  /** A description of the user's own instrument, null for none. */
  readonly describe: string | null;
  /** The page's data as the logbook has them now. */
  gather(): Promise<PageData>;
}

/** Serves the page of a logbook until the user stops it; open pages follow the logbook. */
export async function servePage(
  io: Io,
  { folder, reach, port, json, describe, gather }: Serving,
): Promise<void> {
  // To gather the answers of a full logbook takes a while.
  io.err('turfwire: reading the logbook …');
  const page = await builtPage();
  let data = await gather();
  const descriptions = JSON.stringify(await knownDescriptions(describe));
  const served = {
    html: () => pageWith(page, data),
    data: () => serialisePageData(data),
    descriptions: () => descriptions,
  };
  const server = await startPageServer(served, reach, port);
  const stopFollowing = followLogbook(folder, async () => {
    try {
      data = await gather();
      server.tellChanged();
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      io.err(`turfwire: the page stays as it was: ${error.message}`);
    }
  });
  printAnswer(
    io,
    {
      json: { addresses: server.addresses, reach },
      text: `${words(reach)}\n  ${server.addresses.join('\n  ')}`,
    },
    json,
  );
  await stoppable(
    (signal) => new Promise<void>((resolve) => signal.addEventListener('abort', () => resolve())),
  );
  stopFollowing();
  await server.close();
}

/** Those that come with the program, and before them the user's own. */
async function knownDescriptions(describe: string | null): Promise<Description[]> {
  const own = describe === null ? [] : [await readDescription(describe)];
  const shipped = await Promise.all((await shippedDescriptions()).map(shippedDescription));
  return [...own, ...shipped.filter(({ name }) => name !== own[0]?.name)];
}

function words(reach: Reach): string {
  return reach === 'loopback'
    ? 'The page is here, for this computer alone, and follows the logbook until you press Ctrl+C:'
    : [
        'The page is open to your local network until you press Ctrl+C.',
        'Anyone who has the address with its key can read all that the page shows, and can change nothing.',
        'The connection is not encrypted: use it on a network you trust. The key is new at each start:',
      ].join('\n');
}
