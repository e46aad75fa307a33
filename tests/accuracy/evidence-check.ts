import { readFileSync } from 'node:fs';
import type { CourtCheck } from '../../server/contract/court-check.ts';
import { parseMarks } from '../../server/contract/parse.ts';
import { HOOP_NUMBERS, hoopPlace, pegPlace } from '../../server/lawn/hoops.ts';
import { MARKER_NAMES, markerPlace } from '../../server/lawn/named-points.ts';
import { openPhoto } from '../../server/photo/open-photo.ts';
import { checkCourt } from '../../server/reading/check-court.ts';
import { metres } from '../../server/units/numbers.ts';
import type { Fixture } from './fixtures.ts';

/** One thing that a check looked for: its true displacement and what was said of it, metres. */
export type Checked = {
  readonly name: string;
  readonly kind: 'marker' | 'hoop' | 'peg';
  /** Distance from the proper place by the truth; null for a marker that does not stand. */
  readonly truth: number | null;
  /** Displacement by the truth: along the boundary for a marker, (east, north) else. */
  readonly off: readonly number[];
  /** Found displacement minus the true one, by coordinate; null when it was not seen. */
  readonly errors: readonly number[] | null;
  /** Stated standard deviation of each coordinate. */
  readonly sds: readonly number[];
  readonly within: boolean | null;
  /** Whether the picture shows it at all. */
  readonly inFrame: boolean;
};

type Pair = readonly [number, number];
type CheckTruth = Fixture['truth'] & {
  readonly points: Readonly<Record<string, Pair>>;
  readonly image: Readonly<Record<string, Pair>>;
};

const markers = (check: CourtCheck, truth: CheckTruth): Checked[] =>
  MARKER_NAMES.map((name) => {
    const court = { width: metres(truth.court.width), length: metres(truth.court.length) };
    const proper = markerPlace(court, name);
    const stands = truth.points[name];
    const northward = name === 'markerW' || name === 'markerE';
    const off = stands ? (northward ? stands[1] - proper.y : stands[0] - proper.x) : null;
    const found = check.markers.find((one) => `marker${one.name}` === name)!;
    return {
      name,
      kind: 'marker',
      truth: off === null ? null : Math.abs(off),
      off: off === null ? [] : [off],
      errors: found.along === null || off === null ? null : [found.along - off],
      sds: found.sd === null ? [] : [found.sd],
      within: found.within,
      inFrame: truth.image[name] !== undefined,
    };
  });

const place = (
  kind: 'hoop' | 'peg',
  name: string,
  found: CourtCheck['peg'],
  proper: { x: number; y: number },
  truth: CheckTruth,
): Checked => {
  const stands = truth.points[name]!;
  const off = [stands[0] - proper.x, stands[1] - proper.y];
  const seen = found.dx !== null && found.dy !== null;
  return {
    name,
    kind,
    truth: Math.hypot(...off),
    off,
    errors: seen ? [found.dx! - off[0]!, found.dy! - off[1]!] : null,
    sds: seen ? [found.sdX!, found.sdY!] : [],
    within: found.within,
    inFrame: truth.image[name] !== undefined,
  };
};

/** Compares a check with the truth of its picture. */
export const compareCheck = (check: CourtCheck, fixture: Fixture): Checked[] => {
  const truth = fixture.truth as CheckTruth;
  const court = { width: metres(truth.court.width), length: metres(truth.court.length) };
  return [
    ...markers(check, truth),
    ...HOOP_NUMBERS.map((hoop) =>
      place('hoop', `hoop${hoop}`, check.hoops[hoop - 1]!, hoopPlace(court, hoop), truth),
    ),
    place('peg', 'peg', check.peg, pegPlace(court), truth),
  ];
};

/** Checks the court on a fixture's picture. */
export const checkFixture = async (fixture: Fixture): Promise<{ check: CourtCheck; checked: Checked[] }> => {
  const photo = await openPhoto(readFileSync(fixture.photo));
  const check = checkCourt(photo, parseMarks(fixture.marks));
  return { check, checked: compareCheck(check, fixture) };
};
