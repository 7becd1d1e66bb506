import { describe, expect, it } from 'vitest';
import { listPorts } from '../../../../src/instrument/serial/list-ports.ts';

describe('listPorts', () => {
  it('explains a missing udevadm and still answers', async () => {
    const missing = Object.assign(new Error('spawn udevadm ENOENT'), { code: 'ENOENT' });
    const list = await listPorts(() => Promise.reject(missing));
    expect(list.ports).toEqual([]);
    expect(list.notes[0]).toMatch(/udevadm is missing.*name the port by its path/u);
  });

  it('tells whether a port may be opened, and what is known of it', async () => {
    const found = [{ path: '/dev/null', manufacturer: 'Garden works', serialNumber: '' }];
    const { ports, notes } = await listPorts(async () => found);
    expect(notes).toEqual([]);
    expect(ports).toEqual([
      {
        path: '/dev/null',
        lastingPath: null,
        manufacturer: 'Garden works',
        serialNumber: null,
        vendorId: null,
        productId: null,
        access: 'allowed',
        groupId: 0,
      },
    ]);
  });
});
