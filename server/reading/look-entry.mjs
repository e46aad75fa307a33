// Where a thread for first looks begins.
import { loadCode } from './thread-code.mjs';

await loadCode(new URL('./look-worker.ts', import.meta.url).href);
