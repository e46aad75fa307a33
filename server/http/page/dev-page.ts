import type { Server } from 'node:http';
import { join } from 'node:path';
import type { RequestHandler } from 'express';

/** The page from its sources, renewed in the browser as they change, and how to end it. */
export type DevPage = { readonly handler: RequestHandler; readonly close: () => Promise<void> };

/** Serves the page of `project` from its sources; its socket goes through `server`. */
export const openDevPage = async (project: string, server: Server): Promise<DevPage> => {
  const { createServer } = await import('vite');
  const vite = await createServer({
    configFile: join(project, 'web', 'vite.config.ts'),
    server: { middlewareMode: true, hmr: { server } },
    appType: 'spa',
  });
  return { handler: vite.middlewares as unknown as RequestHandler, close: () => vite.close() };
};
