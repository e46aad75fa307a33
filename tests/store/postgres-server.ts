import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { chownSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import pg from 'pg';

const run = promisify(execFile);

/** Where Debian's package puts the server's programs, the newest version last. */
const DEBIAN = '/usr/lib/postgresql';

/** Folder of the installed server's programs; null when there is none. */
export const postgresPrograms = (): string | null => {
  const versions = existsSync(DEBIAN) ? readdirSync(DEBIAN).toSorted((a, b) => Number(a) - Number(b)) : [];
  const folder = versions
    .map((version) => join(DEBIAN, version, 'bin'))
    .findLast((bin) => existsSync(join(bin, 'initdb')));
  return folder ?? null;
};

const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const server = createServer();
    server.on('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address() as { port: number };
      server.close(() => resolve(port));
    });
  });

/** The server refuses to run as root; Debian's package makes the user `postgres` for it. */
const asItsUser = async (folder: string): Promise<readonly string[]> => {
  if (process.getuid?.() !== 0) return [];
  const [uid, gid] = await Promise.all(
    ['-u', '-g'].map(async (flag) => Number((await run('id', [flag, 'postgres'])).stdout)),
  );
  chownSync(folder, uid!, gid!);
  return ['setpriv', `--reuid=${uid}`, `--regid=${gid}`, '--clear-groups'];
};

const answering = async (url: string): Promise<void> => {
  for (let attempt = 0; ; attempt += 1) {
    const client = new pg.Client({ connectionString: url });
    try {
      await client.connect();
      await client.end();
      return;
    } catch (error) {
      if (attempt > 300) throw error;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
};

const ended = (child: ChildProcess): Promise<void> =>
  child.exitCode !== null || child.signalCode !== null
    ? Promise.resolve()
    : new Promise((resolve) => child.once('exit', () => resolve()));

/** Processes whose parent is `parent` (proc(5): the fourth field of `stat`, after the name in brackets). */
const childrenOf = (parent: number): number[] =>
  readdirSync('/proc')
    .map(Number)
    .filter((pid) => {
      if (!pid) return false;
      try {
        const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').at(-1)!.split(' ');
        return Number(fields[1]) === parent;
      } catch {
        return false;
      }
    });

/** A PostgreSQL server of the test's own in a temporary folder. */
export type PostgresServer = {
  readonly url: string;
  /** Makes an empty database and gives its address. */
  database(name: string): Promise<string>;
  /** Kills the whole server at once, as a loss of power would. */
  kill(): Promise<void>;
  /** Starts it again on the same data. */
  start(): Promise<void>;
  remove(): Promise<void>;
};

/** Starts a server with its default, durable settings. */
export const startPostgres = async (programs: string): Promise<PostgresServer> => {
  const folder = mkdtempSync(join(tmpdir(), 'sward-pg-'));
  const prefix = await asItsUser(folder);
  const port = await freePort();
  const data = join(folder, 'data');
  const command = (program: string, args: string[]): [string, string[]] => {
    const all = [...prefix, join(programs, program), ...args];
    return [all[0]!, all.slice(1)];
  };
  await run(...command('initdb', ['-D', data, '-A', 'trust', '-U', 'sward', '-E', 'UTF8', '--locale=C']), {
    cwd: folder,
  });
  const url = `postgres://sward@127.0.0.1:${port}/postgres`;
  let server: ChildProcess;
  const start = async () => {
    const args = ['-D', data, '-p', String(port), '-c', 'listen_addresses=127.0.0.1', '-k', folder];
    server = spawn(...command('postgres', args), { cwd: folder, stdio: 'ignore' });
    await answering(url);
  };
  /** Kills the backends too: they outlive their parent for a moment otherwise, and block a new start. */
  const kill = async () => {
    const backends = childrenOf(server.pid!);
    server.kill('SIGKILL');
    for (const pid of backends)
      try {
        process.kill(pid, 'SIGKILL');
      } catch {
        // It ended by itself meanwhile.
      }
    await ended(server);
  };
  await start();
  return {
    url,
    start,
    kill,
    database: async (name) => {
      const client = new pg.Client({ connectionString: url });
      await client.connect();
      await client.query(`create database "${name}"`);
      await client.end();
      return url.replace(/postgres$/, name);
    },
    remove: async () => {
      server.kill('SIGINT');
      await ended(server);
      rmSync(folder, { recursive: true, force: true });
    },
  };
};
