import { openMemoryStore } from '../../server/store/memory/memory-store.ts';
import { describeStore } from './store-suite.ts';

describeStore('in memory', async () => openMemoryStore());
