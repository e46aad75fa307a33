/** What of the program is measured, in one place. */
export type { Marks } from '../../server/contract/marks.ts';
export { parseMarksText } from '../../server/contract/parse.ts';
export { beginPhoto } from '../../server/photo/open-photo.ts';
export { type LookBeside, openLookBeside } from '../../server/reading/look-beside.ts';
export { readComing } from '../../server/reading/read-lawn.ts';
