// Runs a module of this folder, named by the first argument, as the program's own threads run theirs: bundled.
import { loadCode } from '../../server/reading/thread-code.mjs';

const [name] = process.argv.splice(2, 1);
await loadCode(new URL(`./${name}.ts`, import.meta.url).href);
