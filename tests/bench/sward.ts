/** What of the program is measured, in one place. */
export type { Marks } from '../../server/contract/marks.ts';
export { parseMarksText } from '../../server/contract/parse.ts';
export { openPool, type Pool } from '../../server/reading/pool.ts';
