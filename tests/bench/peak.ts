// Reads one picture several times in a process of its own, as the server does, and prints the most memory it ever held, in MB.
import { openPicture } from './picture.ts';
import { openPool } from './sward.ts';

const TIMES = 10;

const run = async (name: string): Promise<void> => {
  const { bytes, marks } = await openPicture(name);
  const pool = openPool({ threads: 1 });
  for (let time = 0; time < TIMES; time++) await pool.run('read', { photo: bytes, marks });
  // Kilobytes on Linux (getrusage).
  console.log(Math.round(process.resourceUsage().maxRSS / 1024));
  await pool.close();
};

await run(process.argv[2]!);
