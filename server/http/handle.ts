import type { Request, RequestHandler, Response } from 'express';
import { isId } from '../contract/identifiers.ts';
import { InputError } from '../errors.ts';

/** Answers 200 with the JSON value that `work` gives. */
export const json =
  (work: (request: Request) => Promise<unknown> | unknown): RequestHandler =>
  async (request, response) => {
    response.json(await work(request));
  };

/** Answers with the status and the JSON value that `work` gives. */
export const given =
  (
    work: (request: Request) => Promise<{ readonly status: number; readonly body: unknown }>,
  ): RequestHandler =>
  async (request, response) => {
    const { status, body } = await work(request);
    response.status(status).json(body);
  };

/** Answers 204 once `work` is done. */
export const done =
  (work: (request: Request) => Promise<unknown>): RequestHandler =>
  async (request, response) => {
    await work(request);
    response.status(204).end();
  };

/** Sends a file made on the spot: `type` its media type, `name` the name a browser saves it under. */
export const file =
  (type: string, name: string, work: (request: Request) => Promise<Uint8Array | string>): RequestHandler =>
  async (request, response) => {
    send(response, type, await work(request), name);
  };

const send = (response: Response, type: string, body: Uint8Array | string, name: string): void => {
  response.type(type);
  response.set('Content-Disposition', `inline; filename="${name}"`);
  response.send(typeof body === 'string' ? body : Buffer.from(body));
};

/** 404: there is no `what` under the address that was asked for. */
export const noSuch = (what: string): InputError =>
  new InputError(
    `no-such-${what.replaceAll(' ', '-')}`,
    `There is no ${what} with this address; it may have been deleted. Go back to the list and choose another.`,
    404,
  );

/** `value`, or 404 when it is null. */
export const found = <T>(value: T | null, what: string): T => {
  if (value === null) throw noSuch(what);
  return value;
};

/** The id in the address; 404 when it has not the form of one. */
export const idOf = (request: Request, what: string): string => {
  const id = request.params.id;
  if (!isId(id)) throw noSuch(what);
  return id;
};
