/** What of the program is measured, in one place. */
export type { Marks } from '../../server/contract/marks.ts';
export { parseMarksText } from '../../server/contract/parse.ts';
export { openPhoto } from '../../server/photo/open-photo.ts';
export { readLawn } from '../../server/reading/read-lawn.ts';
