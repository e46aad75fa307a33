import { describe, expect, it } from 'vitest';
import { cutOff } from './thread-code-part.ts';

const address = (path: string): string => new URL(path, import.meta.url).href;
const { loadCode } = await import(address('../../server/reading/thread-code.mjs'));

describe('the code of a thread', () => {
  it('is what its modules export, together, with what they import', async () => {
    const code = await loadCode(
      address('./thread-code-part.ts'),
      address('../../server/reading/look-task.ts'),
    );
    expect(Object.keys(code)).toEqual(expect.arrayContaining(['cutOff', 'ownAddress', 'COUNTERS']));
    expect(code.cutOff(new Uint8Array(4))).toBe(cutOff(new Uint8Array(4)));
  });

  it('leaves each module its own address, beside which it finds its files', async () => {
    const code = await loadCode(address('./thread-code-part.ts'));
    expect(code.ownAddress).toBe(address('./thread-code-part.ts'));
  });

  it('is kept: the same modules are loaded once, also when several threads ask at once', async () => {
    const [first, ...others] = await Promise.all(
      [1, 2, 3].map(() => loadCode(address('./thread-code-part.ts'))),
    );
    for (const each of others) expect(each).toBe(first);
  });
});
