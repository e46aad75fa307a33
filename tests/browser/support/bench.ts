import type { Browser } from 'playwright-core';
import type { RunningService } from './run-service.ts';

/** What every journey is given: one browser and one running program for all of them. */
export type Bench = { readonly browser: Browser; readonly service: RunningService };
