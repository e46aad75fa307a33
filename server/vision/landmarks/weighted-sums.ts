/** Working space: where a column is not nought, and its weighted values there. Grown as needed, never shrunk. */
let places = new Int32Array(0);
let weighted = new Float64Array(0);

/** Lower triangle of Xᵀ W X for the columns X, size × size. Columns may be nought nearly everywhere, as a thing's templates are: only where they are not is summed. */
export const normalMatrix = (columns: readonly Float64Array[], weights: Float64Array): Float64Array => {
  const k = columns.length;
  const n = weights.length;
  if (places.length < n) {
    places = new Int32Array(n);
    weighted = new Float64Array(n);
  }
  const out = new Float64Array(k * k);
  for (let a = 0; a < k; a++) {
    const count = gather(columns[a]!, weights);
    for (let b = 0; b <= a; b++) out[a * k + b] = sumOver(columns[b]!, count);
  }
  return out;
};

/** Lists where `column` is not nought; returns how often. */
const gather = (column: Float64Array, weights: Float64Array): number => {
  let count = 0;
  for (let i = 0; i < weights.length; i++) {
    const value = column[i]!;
    if (value === 0) continue;
    places[count] = i;
    weighted[count] = weights[i]! * value;
    count++;
  }
  return count;
};

const sumOver = (column: Float64Array, count: number): number => {
  let sum = 0;
  for (let m = 0; m < count; m++) sum += weighted[m]! * column[places[m]!]!;
  return sum;
};

/** Xᵀ W v. */
export const projected = (
  columns: readonly Float64Array[],
  weights: Float64Array,
  values: Float64Array,
): Float64Array =>
  Float64Array.from(columns, (column) => {
    let sum = 0;
    for (let i = 0; i < weights.length; i++) sum += weights[i]! * column[i]! * values[i]!;
    return sum;
  });

/** vᵀ W v. */
export const weightedSquare = (weights: Float64Array, values: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < weights.length; i++) sum += weights[i]! * values[i]! * values[i]!;
  return sum;
};
