import { cholesky, choleskySolve, type NormalEquations } from './normal-equations.ts';

/** A least-squares problem over a state `S`. */
export type LeastSquares<S> = {
  /** Normal equations and cost at `state`; a cost of Infinity marks a state that is out of range. */
  readonly assemble: (state: S) => NormalEquations;
  /** The state after a step. */
  readonly move: (state: S, step: Float64Array) => S;
};

/** The minimum found, with the equations there, and by how much the cost fell on the way. */
export type Minimum<S> = { readonly state: S; readonly equations: NormalEquations; readonly gain: number };

const damped = ({ matrix, size, right }: NormalEquations, damping: number): Float64Array | null => {
  const m = matrix.slice();
  for (let i = 0; i < size; i++) m[i * size + i]! *= 1 + damping;
  const l = cholesky(m, size);
  return l && choleskySolve(l, size, right);
};

/** Past this damping a step is too short to matter. */
const MOST_DAMPING = 1e10;

/**
 * Levenberg–Marquardt with Marquardt's scaling (D. W. Marquardt, SIAM J. Appl. Math. 11, 1963): the diagonal of the normal equations is
 * enlarged until the cost falls. Ends when a step lowers the cost by less than `tolerance` (cost is in units of variances, so this is a
 * change that no observation can notice), after `steps` steps, or when no step, however short, lowers it.
 */
export const minimise = <S>(problem: LeastSquares<S>, start: S, steps = 60, tolerance = 1e-7): Minimum<S> => {
  let state = start;
  let equations = problem.assemble(state);
  const startCost = equations.cost;
  let damping = 1e-5;
  for (let taken = 0; taken < steps && damping < MOST_DAMPING; ) {
    const step = damped(equations, damping);
    const moved = step && problem.move(state, step);
    const next = moved && problem.assemble(moved);
    if (!next || !(next.cost <= equations.cost)) {
      damping *= 8;
      continue;
    }
    const gain = equations.cost - next.cost;
    state = moved as S;
    equations = next;
    damping = Math.max(damping / 10, 1e-10);
    taken++;
    if (gain < tolerance) break;
  }
  return { state, equations, gain: startCost - equations.cost };
};
