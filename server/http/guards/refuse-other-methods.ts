import type { Router } from 'express';
import { InputError } from '../../errors.ts';

type Route = { readonly path: string; readonly methods: Readonly<Record<string, boolean>> };
type Layer = { readonly route?: Route };

/** The paths of `router` with the methods each takes, in capitals. */
export const routesOf = (router: Router): Map<string, string[]> => {
  const routes = new Map<string, string[]>();
  for (const { route } of router.stack as unknown as Layer[])
    if (route && !route.methods._all)
      routes.set(route.path, [
        ...(routes.get(route.path) ?? []),
        ...Object.keys(route.methods).map((method) => method.toUpperCase()),
      ]);
  return routes;
};

/** Makes `router` answer 405, with the methods it takes, to any other method on its paths. Call it after its last route. */
export const refuseOtherMethods = (router: Router): Router => {
  for (const [path, methods] of routesOf(router))
    router.all(path, (request, response) => {
      response.set('Allow', methods.join(', '));
      throw new InputError(
        'method-not-allowed',
        `${request.method} is not possible at this address; use ${methods.join(' or ')}.`,
        405,
      );
    });
  return router;
};
