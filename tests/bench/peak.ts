// Reads one picture several times in a process of its own and prints the most memory it ever held, in MB.
import { openPicture } from './picture.ts';
import { beginPhoto, openLookBeside, readComing } from './sward.ts';

const TIMES = 5;

const run = async (name: string): Promise<void> => {
  const { bytes, marks } = await openPicture(name);
  const beside = openLookBeside();
  await beside.ready;
  for (let time = 0; time < TIMES; time++)
    await readComing(await beginPhoto(bytes, undefined, beside.room), marks, () => {}, beside.look);
  // Kilobytes on Linux (getrusage).
  console.log(Math.round(process.resourceUsage().maxRSS / 1024));
};

await run(process.argv[2]!);
