import { isCutOff } from '../../server/photo/jpeg-end.ts';

/** Something of another module, by another name. */
export const cutOff = isCutOff;
export const ownAddress = import.meta.url;
