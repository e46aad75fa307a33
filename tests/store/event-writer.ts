import { connectFile, connectPostgres } from '../../server/store/sql/connect.ts';
import { openSqlStore } from '../../server/store/sql/sql-store.ts';

/**
 * A process that adds one event after another to a game and says of each, on a line of its own, that it is kept: `node … FILE-OR-URL GAME`.
 * The test kills it at a moment of its choosing.
 */
const [target, id] = process.argv.slice(2) as [string, string];
const db = target.startsWith('postgres:') ? connectPostgres(target, () => undefined) : connectFile(target);
const store = await openSqlStore(db);
let version = (await store.games.get(id))!.version;
for (;;) {
  const outcome = await store.games.append({
    id,
    expectedVersion: version,
    at: new Date().toISOString(),
    events: [{ type: 'turn', number: version + 1 }],
    title: '',
    summary: { turns: version },
  });
  if (!outcome.ok) throw new Error(outcome.code);
  version = outcome.version;
  process.stdout.write(`${version}\n`);
}
