/** Durations of one thing over the rounds, ms. */
export type Times = readonly number[];

/** Median of `values`; NaN of none. */
export const median = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
};

/** A thing and its durations as multiples of the reference of the same run: of the medians and of the fastest. */
export type Multiple = {
  readonly name: string;
  readonly median: number;
  readonly ofMedian: number;
  readonly ofFastest: number;
};

/** `times` in multiples of `reference`. */
export const multipleOf = (name: string, times: Times, reference: Times): Multiple => ({
  name,
  median: median(times),
  ofMedian: median(times) / median(reference),
  ofFastest: Math.min(...times) / Math.min(...reference),
});

/** A table of multiples as lines of text. */
export const tableOf = (rows: readonly Multiple[]): string[] => [
  `${'step'.padEnd(50)}${'median'.padStart(10)}${'× decode'.padStart(12)}${'× (fastest)'.padStart(14)}`,
  ...rows.map(
    (row) =>
      `${row.name.padEnd(50)}${`${row.median.toFixed(0)} ms`.padStart(10)}${row.ofMedian.toFixed(2).padStart(12)}${row.ofFastest.toFixed(2).padStart(14)}`,
  ),
];
