/**
 * What a warm reading of a 12 MP photo costs, as a multiple of sharp's full decode of the same file, measured in turn in one run; and the
 * memory that a process takes for it which does nothing else. Times depend on the machine and its load, the multiples hardly.
 */
import { execFileSync } from 'node:child_process';
import { availableParallelism, cpus, loadavg } from 'node:os';
import { multipleOf, tableOf } from './measure.ts';
import { openPicture } from './picture.ts';
import { READING, REFERENCE, runRounds } from './rounds.ts';

const WARM_UP = 30;
const ROUNDS = 11;
/** A fixture of 4032 × 3024 px. */
const PICTURE = 'd2-balcony';
/** What is aimed at: three decodes; 400 MB more than the program holds at rest. */
const AIM = { multiple: 3, megabytes: 400 };

/** Memory of a process before its first reading and at most, MB. */
const memoryOf = (name: string): readonly number[] =>
  execFileSync('npx', ['tsx', new URL('./peak.ts', import.meta.url).pathname, name])
    .toString()
    .split(' ')
    .map(Number);

const run = async (name: string): Promise<void> => {
  const picture = await openPicture(name);
  const load = loadavg()[0]!.toFixed(1);
  console.log(
    `${cpus()[0]?.model ?? 'unknown processor'}, ${availableParallelism()} cores, load ${load}, Node ${process.version}`,
  );
  console.log(
    `${picture.name}: ${(picture.bytes.length / 1e6).toFixed(1)} MB file, ${ROUNDS} rounds after ${WARM_UP} to warm up\n`,
  );
  const rounds = await runRounds(picture, WARM_UP, ROUNDS);
  const reference = rounds.get(REFERENCE)!;
  const rows = [...rounds].map(([step, times]) => multipleOf(step, times, reference));
  console.log(tableOf(rows).join('\n'));
  const reading = rows.find((row) => row.name === READING)!;
  console.log(
    `\nwarm reading: ${reading.ofMedian.toFixed(2)} × sharp's full decode (aim: ≤ ${AIM.multiple})`,
  );
  const [before, most] = memoryOf(name) as [number, number];
  console.log(
    `memory: ${most} MB at most, ${most - before} of them for reading (aim: ≤ ${AIM.megabytes}), ${before} before`,
  );
};

await run(process.argv[2] ?? PICTURE);
