import type { CourtCheck } from '../../contract/court-check.ts';
import { giveOrTake } from '../../contract/words/chances.ts';
import { margin, wholeMillimetres } from '../../contract/words/lengths.ts';
import { pointName } from '../../contract/words/places.ts';
import type { PointName } from '../../lawn/named-points.ts';
import { sayWarnings } from './say-calls.ts';

type Place = Omit<CourtCheck['peg'], 'within'> & { readonly within: boolean | null };

/** Displacements shorter than this, metres, have no direction worth telling. */
const NO_WAY = 0.0005;

const way = (value: number, positive: string, negative: string): string[] =>
  Math.abs(value) < NO_WAY ? [] : [`${margin(value, 'metric')} to the ${value > 0 ? positive : negative}`];

const verdict = (within: boolean | null): string =>
  within === null ? 'too close to say' : within ? 'within the tolerance' : 'out of the tolerance';

/** `off` says where a place lies from its proper one. */
const sayPlace = (name: string, off: readonly string[] | null, sd: number | null, within: boolean | null) =>
  off === null || sd === null
    ? `${name}: not seen.`
    : `${name}: ${off.join(' and ') || 'in its place'}, give or take ${wholeMillimetres(giveOrTake(sd))} mm; ${verdict(within)}.`;

/** The marker names of a check leave out what the marks file puts before them. */
const markerName = (name: string): string => pointName(`marker${name}` as PointName);

/** "W" and "E" stand on the boundaries along which north and south are told, the others where east and west are. */
const sayMarker = ({ name, along, sd, within }: CourtCheck['markers'][number]): string => {
  const [positive, negative] = name === 'W' || name === 'E' ? ['north', 'south'] : ['east', 'west'];
  return sayPlace(markerName(name), along === null ? null : way(along, positive!, negative!), sd, within);
};

const sayStanding = (name: PointName, { dx, dy, sd, within }: Place): string => {
  const off = dx === null || dy === null ? null : [...way(dx, 'east', 'west'), ...way(dy, 'north', 'south')];
  return sayPlace(pointName(name), off, sd, within);
};

/** A court check in words that can be read aloud: each place, how far it is off and which way. */
export const sayCheck = ({ tolerance, markers, hoops, peg, warnings }: CourtCheck): string[] => [
  `Tolerance ${wholeMillimetres(tolerance)} mm.`,
  ...markers.map(sayMarker),
  ...hoops.map((hoop) => sayStanding(hoop.name as PointName, hoop)),
  sayStanding('peg', peg),
  ...sayWarnings(warnings),
];
