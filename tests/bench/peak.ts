// Reads one picture several times in a process of its own, as the server does, and prints how much memory it held before the first reading and at most, in MB.
import { openPicture } from './picture.ts';
import { openPool } from './sward.ts';

const TIMES = 10;

const run = async (name: string): Promise<void> => {
  const { bytes, marks } = await openPicture(name);
  const pool = openPool({ threads: 1 });
  const before = process.memoryUsage.rss() / 2 ** 20;
  for (let time = 0; time < TIMES; time++) await pool.run('read', { photo: bytes, marks });
  // Kilobytes on Linux (getrusage).
  console.log(Math.round(before), Math.round(process.resourceUsage().maxRSS / 1024));
  await pool.close();
};

await run(process.argv[2]!);
