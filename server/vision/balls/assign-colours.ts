/**
 * Chances that candidate i is the ball of colour c, at most one candidate a colour and at most one colour a candidate. `lnOdds` holds
 * candidates × `colours` logarithms of odds: candidate i being that ball, against being nothing. `present` is the chance that a colour's ball is on the
 * lawn in view at all. Every assignment is weighed by its product of odds; they are summed exactly by running over the candidates with the set of
 * colours already given away, forwards and backwards. At most 12 colours; the result has the shape of `lnOdds`.
 */
export const colourChances = (
  lnOdds: Float64Array,
  colours: number,
  present: ArrayLike<number>,
): Float64Array => weighAssignments(lnOdds, colours, present).chances;

/** `colourChances`, and how well these chances of being present explain the candidates: ln of the summed weight of all assignments. */
export const weighAssignments = (
  lnOdds: Float64Array,
  colours: number,
  present: ArrayLike<number>,
): { readonly chances: Float64Array; readonly lnEvidence: number } => {
  const candidates = lnOdds.length / colours;
  if (!Number.isInteger(candidates) || colours > 12)
    throw new Error(
      `Expected rows of at most 12 colours for lnOdds but received ${lnOdds.length} numbers for ${colours}`,
    );
  const sets = 1 << colours;
  const odds = new Float64Array(lnOdds.length);
  for (let i = 0; i < odds.length; i++)
    odds[i] = prior(present[i % colours]!) * Math.exp(Math.min(60, lnOdds[i]!));
  const forward = runForward(odds, candidates, colours, sets);
  const chances = new Float64Array(lnOdds.length);
  // Weight of everything after candidate i, given the set used before it.
  let after = new Float64Array(sets).fill(1);
  let total = 0;
  for (let s = 0; s < sets; s++) total += forward[candidates * sets + s]!;
  for (let i = candidates - 1; i >= 0; i--) {
    const before = new Float64Array(sets);
    for (let s = 0; s < sets; s++) {
      let sum = after[s]!;
      for (let c = 0; c < colours; c++) {
        if (s & (1 << c)) continue;
        const weight = odds[i * colours + c]! * after[s | (1 << c)]!;
        sum += weight;
        chances[i * colours + c] = chances[i * colours + c]! + (forward[i * sets + s]! * weight) / total;
      }
      before[s] = sum;
    }
    after = before;
  }
  const lnAbsent = Array.from(present).reduce((sum, chance) => sum + Math.log(Math.max(1e-9, 1 - chance)), 0);
  return { chances, lnEvidence: Math.log(total) + lnAbsent };
};

/** Odds that a ball of a colour whose chance to be there is `present` is shown by one given candidate rather than absent. */
const prior = (present: number): number => present / Math.max(1e-9, 1 - present);

const runForward = (odds: Float64Array, candidates: number, colours: number, sets: number): Float64Array => {
  const forward = new Float64Array((candidates + 1) * sets);
  forward[0] = 1;
  for (let i = 0; i < candidates; i++)
    for (let s = 0; s < sets; s++) {
      const weight = forward[i * sets + s]!;
      if (weight === 0) continue;
      const next = (i + 1) * sets;
      forward[next + s] = forward[next + s]! + weight;
      for (let c = 0; c < colours; c++) {
        if (s & (1 << c)) continue;
        forward[next + (s | (1 << c))] = forward[next + (s | (1 << c))]! + weight * odds[i * colours + c]!;
      }
    }
  return forward;
};
