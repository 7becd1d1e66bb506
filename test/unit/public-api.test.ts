import { expect, it } from 'vitest';
import * as api from '../../src/index.ts';

it('the library offers what it offered before; a change here is a change for its users', async () => {
  await expect(`${Object.keys(api).sort().join('\n')}\n`).toMatchFileSnapshot('public-api.txt');
});
