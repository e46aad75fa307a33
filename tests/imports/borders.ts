import { posix } from 'node:path';
import { importsOf, type Source } from './sources.ts';
import { ADAPTERS, BESIDE, PURE_ROOMS, ROOMS, WEB_FILES, WEB_ROOMS, WIRING } from './table.ts';

/** Something that must not be: where, and what. */
export type Breach = string;

const isRelative = (specifier: string): boolean => specifier.startsWith('.');

const targetOf = (source: Source, specifier: string): string =>
  posix.normalize(posix.join(posix.dirname(source.path), specifier));

/** `server/lawn/court.ts` → `lawn`; `server/errors.ts` → `errors`; anything else has no room. */
const roomOf = (path: string): string | null => {
  const [top, next] = path.split('/');
  return top === 'server' && next !== undefined ? next.replace(/\.ts$/, '') : null;
};

/** `node:fs/promises` → `node`; `@scope/name/part` → `@scope/name`; `tsx/esm/api` → `tsx`. */
export const packageOf = (specifier: string): string => {
  if (specifier.startsWith('node:')) return 'node';
  const parts = specifier.split('/');
  return specifier.startsWith('@') ? parts.slice(0, 2).join('/') : parts[0]!;
};

const breach = (source: Source, what: string): Breach => `${source.path}: ${what}`;

const unknownRoom = (room: string): boolean =>
  !(room in ROOMS) && !WIRING.includes(room) && !BESIDE.includes(room);

const roomBreach = (source: Source, room: string, specifier: string): Breach[] => {
  const allowed = ROOMS[room];
  if (!allowed) return [];
  if (!isRelative(specifier)) {
    const name = packageOf(specifier);
    return allowed.packages.includes(name) ? [] : [breach(source, `${room} imports the package ${name}`)];
  }
  const target = targetOf(source, specifier);
  const to = roomOf(target);
  if (to === room) return [];
  if (to !== null && allowed.rooms.includes(to)) return [];
  return [breach(source, `${room} imports ${target}`)];
};

const webBreach = (source: Source, specifier: string): Breach[] => {
  if (!isRelative(specifier)) return [];
  const target = targetOf(source, specifier);
  const room = roomOf(target);
  if (room === null || WEB_ROOMS.includes(room) || WEB_FILES.includes(target)) return [];
  return [breach(source, `web imports ${target}`)];
};

const bordersOf = (source: Source, specifier: string): Breach[] => {
  if (source.path.startsWith('web/')) return webBreach(source, specifier);
  const room = roomOf(source.path);
  return room === null ? [] : roomBreach(source, room, specifier);
};

const adapterBreach = (source: Source, specifier: string): Breach[] => {
  const adapter = isRelative(specifier) ? undefined : ADAPTERS[packageOf(specifier)];
  return adapter && !adapter.test(source.path)
    ? [breach(source, `uses ${specifier} beside its adapter`)]
    : [];
};

/** Imports that cross a border of the house, and rooms that are not in its table. */
export const borderBreaches = (sources: readonly Source[]): Breach[] =>
  sources.flatMap((source) => {
    const room = roomOf(source.path);
    const unknown = room !== null && unknownRoom(room) ? [breach(source, `there is no room ${room}`)] : [];
    const crossed = importsOf(source).flatMap((specifier) => [
      ...bordersOf(source, specifier),
      ...adapterBreach(source, specifier),
    ]);
    return [...unknown, ...crossed];
  });

/** What a pure room does not know: the outside world, the time of day, chance. */
const IMPURE = [
  /\bMath\.random\b/,
  /\bDate\.now\b/,
  /\bnew Date\(\s*\)/,
  /\bperformance\./,
  /\bprocess\./,
  /\bconsole\./,
  /\bfetch\(/,
  /\bsetTimeout\b/,
  /\bcrypto\./,
];

/** Impure words in the pure rooms. */
export const impureBreaches = (sources: readonly Source[]): Breach[] =>
  sources
    .filter(({ path }) => PURE_ROOMS.includes(roomOf(path) ?? ''))
    .flatMap((source) =>
      IMPURE.flatMap((pattern) => {
        const found = pattern.exec(source.text)?.[0];
        return found ? [breach(source, `${found} in a pure room`)] : [];
      }),
    );

/** Imports of packages that `declared` does not list; `virtual:` modules are made by the page's builder. */
export const undeclaredBreaches = (sources: readonly Source[], declared: readonly string[]): Breach[] =>
  sources.flatMap((source) =>
    importsOf(source)
      .filter((specifier) => !isRelative(specifier) && !specifier.startsWith('virtual:'))
      .map(packageOf)
      .filter((name) => name !== 'node' && !declared.includes(name))
      .map((name) => breach(source, `the package ${name} is not declared`)),
  );
