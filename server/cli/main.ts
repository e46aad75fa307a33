import { runCommandLine } from './run.ts';

const to =
  (stream: NodeJS.WriteStream) =>
  (text: string): void => {
    stream.write(`${text}\n`);
  };

// Whoever reads the answer may stop reading, as `head` does.
process.stdout.on('error', () => undefined);

void runCommandLine(process.argv.slice(2), to(process.stdout), to(process.stderr)).then((code) => {
  process.exitCode = code;
});
