import type { Call } from '../../server/contract/reading.ts';
import { towards } from '../../server/contract/words/places.ts';
import { type HoopPoint, hoopOfPoint } from '../../server/lawn/hoops.ts';

/** Where play goes on, for an arrow: "hoop 2, north". */
export const nextHoopWords = ({ nextHoop, line }: Pick<Call, 'nextHoop' | 'line'>): string =>
  `hoop ${hoopOfPoint(nextHoop as HoopPoint)}, ${towards(line)}`;
