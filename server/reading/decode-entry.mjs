// Where a thread that decodes photos begins.
import { loadCode } from './thread-code.mjs';

await loadCode(new URL('./decode-worker.ts', import.meta.url).href);
