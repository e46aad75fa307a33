import { buildPage } from '../../../server/http/page/build-page.ts';

// A process of its own builds the page: from within a test it would be built for tests.
await buildPage(process.cwd());
