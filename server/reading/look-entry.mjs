// Where a thread for first looks begins; see `worker-entry.mjs`.
import { register } from 'tsx/esm/api';

register();
await import('./look-worker.ts');
