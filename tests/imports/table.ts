/**
 * The rooms of the server and what each may import: other rooms, `errors` and `config` and `logging` (files beside the rooms), and packages.
 * `node` stands for all modules of Node. A room that is not listed here does not exist.
 */
export const ROOMS: Readonly<
  Record<string, { readonly rooms: readonly string[]; readonly packages: readonly string[] }>
> = {
  units: { rooms: [], packages: [] },
  lawn: { rooms: ['units'], packages: [] },
  camera: { rooms: ['units', 'lawn'], packages: ['ml-matrix'] },
  rules: { rooms: ['units', 'lawn'], packages: [] },
  games: { rooms: ['units', 'lawn', 'rules'], packages: [] },
  photo: { rooms: ['units', 'errors'], packages: ['sharp', 'exif-reader', 'heic-decode'] },
  vision: { rooms: ['units', 'lawn', 'camera'], packages: ['opencv-wasm', 'ml-matrix', 'node'] },
  contract: { rooms: ['units', 'lawn', 'errors'], packages: ['zod', '@asteasolutions/zod-to-openapi'] },
  reading: {
    rooms: ['units', 'lawn', 'camera', 'photo', 'vision', 'rules', 'contract', 'errors'],
    packages: ['piscina', 'tsx', 'esbuild', 'node'],
  },
  store: {
    rooms: ['units', 'contract', 'games', 'errors'],
    packages: ['kysely', 'libsql', 'pg', 'node'],
  },
  cards: {
    rooms: ['units', 'lawn', 'camera', 'photo', 'rules', 'contract', 'games', 'errors'],
    packages: ['pdfkit', 'fontkit', 'node'],
  },
  http: {
    rooms: ['units', 'lawn', 'reading', 'games', 'store', 'contract', 'errors', 'config', 'logging'],
    packages: [
      'express',
      'compression',
      'express-rate-limit',
      'helmet',
      'multer',
      'pino-http',
      'swagger-ui-dist',
      'vite',
      'zod',
      'node',
    ],
  },
  cli: {
    rooms: ['units', 'lawn', 'rules', 'reading', 'games', 'store', 'contract', 'errors'],
    packages: ['node'],
  },
};

/** Where everything is put together: files beside the rooms, and the folder of what they wire. These may import any room. */
export const WIRING = ['start', 'wiring'];
/** Files beside the rooms that any room may be given by the table above. */
export const BESIDE = ['errors', 'config', 'logging'];

/** Rooms without input, output, clock or chance. */
export const PURE_ROOMS = ['units', 'lawn', 'camera', 'rules', 'games'];

/** Rooms of the server that the page may import: the plan on screen is the code that judges. */
export const WEB_ROOMS = ['contract', 'units', 'lawn', 'rules', 'games'];
/** Single files besides: how a solved camera shows a point or a ball, so that the line on the photo is drawn where it was judged. */
export const WEB_FILES = [
  'server/camera/camera-model.ts',
  'server/camera/ball-outline.ts',
  'server/camera/types.ts',
];

/** Packages that one room or one file alone may use: each library has one adapter. */
export const ADAPTERS: Readonly<Record<string, RegExp>> = {
  sharp: /^server\/photo\/|^tests\/|^fixtures\//,
  'opencv-wasm': /^server\/vision\/opencv[^/]*\.ts$|^tests\//,
  piscina: /^server\/reading\/|^tests\//,
  esbuild: /^server\/reading\/thread-code\.mjs$/,
  kysely: /^server\/store\/|^tests\//,
  libsql: /^server\/store\/|^tests\//,
  pg: /^server\/store\/|^tests\//,
  pdfkit: /^server\/cards\/|^tests\//,
};
