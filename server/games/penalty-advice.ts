import { angleToHoop, DEFAULT_ZONE, toApproachZone, type ZoneBounds } from '../lawn/approach-zone.ts';
import type { Court } from '../lawn/court.ts';
import { PENALTY_SIDES, type PenaltySide, penaltyCentre } from '../lawn/penalty-area.ts';
import type { Leg } from '../rules/hoop-order.ts';
import type { Metres, Radians } from '../units/numbers.ts';

/** What a ball in a penalty area has before it: the way to a hoop's approach zone, and its angle off the hoop's axis. */
export type WayToHoop = { readonly point: number; readonly distance: Metres; readonly angle: Radians };

/** The way from one penalty area to the next hoop and to the one after; null where there is none. */
export type AreaProspect = {
  readonly area: PenaltySide;
  readonly next: WayToHoop | null;
  readonly after: WayToHoop | null;
};

/** Which area leaves a directed ball worse; null when the difference is within what its owner gains by placing it in the area. */
export type PenaltyAdvice = {
  readonly areas: readonly [AreaProspect, AreaProspect];
  readonly worse: PenaltySide | null;
  readonly reason: string;
};

const wayFrom = (court: Court, area: PenaltySide, leg: Leg | null, bounds: ZoneBounds): WayToHoop | null => {
  if (leg === null) return null;
  const place = penaltyCentre(court, area);
  return {
    point: leg.point,
    distance: toApproachZone(court, leg, place, bounds),
    angle: angleToHoop(court, leg, place),
  };
};

/** The area that is farther by more than `slack`, or null. */
const farther = (
  [west, east]: readonly [AreaProspect, AreaProspect],
  hoop: 'next' | 'after',
  slack: number,
): PenaltySide | null => {
  const difference = (west[hoop]?.distance ?? 0) - (east[hoop]?.distance ?? 0);
  if (Math.abs(difference) <= slack) return null;
  return difference > 0 ? 'west' : 'east';
};

const reasonOf = (
  areas: readonly [AreaProspect, AreaProspect],
  hoop: 'next' | 'after',
  worse: PenaltySide,
): string => {
  const [far, near] = worse === 'west' ? areas : [areas[1], areas[0]];
  const ways = `${far[hoop]!.distance.toFixed(1)} m from the approach zone of hoop ${far[hoop]!.point}, against ${near[hoop]!.distance.toFixed(1)} m from the ${near.area}`;
  return hoop === 'next'
    ? `From the ${worse} it is ${ways}.`
    : `Both are about as far from the next hoop; from the ${worse} it is ${ways}.`;
};

/**
 * Compares the two penalty areas for a ball that is directed, by the distance to the approach zone of the next hoop and, when these differ
 * by no more than the area's `radius` (its owner may place the ball that much nearer), of the hoop after. Common practice, no source.
 */
export const advisePenaltyArea = (
  court: Court,
  hoops: { readonly next: Leg | null; readonly after: Leg | null },
  radius: Metres,
  bounds: ZoneBounds = DEFAULT_ZONE,
): PenaltyAdvice => {
  const prospect = (area: PenaltySide): AreaProspect => ({
    area,
    next: wayFrom(court, area, hoops.next, bounds),
    after: wayFrom(court, area, hoops.after, bounds),
  });
  const areas = [prospect(PENALTY_SIDES[0]), prospect(PENALTY_SIDES[1])] as const;
  for (const hoop of ['next', 'after'] as const) {
    const worse = farther(areas, hoop, radius);
    if (worse) return { areas, worse, reason: reasonOf(areas, hoop, worse) };
  }
  return {
    areas,
    worse: null,
    reason: 'Neither area is clearly farther from the next hoops than the other.',
  };
};
