import { type Request, type Response, Router } from 'express';
import { FINAL_STEPS, type ProgressEvent } from '../../contract/service.ts';
import { InputError } from '../../errors.ts';
import { refuseOtherMethods } from '../guards/refuse-other-methods.ts';
import { done } from '../handle.ts';
import type { Service } from '../service.ts';

/** How often a silent channel is kept open, ms: well below the minute after which common proxies close one. */
const HEARTBEAT_MS = 15_000;

const KEY = /^[\w-]{8,100}$/;
const keyIn = (request: Request): string => {
  const { key } = request.params;
  if (typeof key !== 'string' || !KEY.test(key))
    throw new InputError(
      'bad-key',
      'A progress channel’s name has 8 to 100 letters, digits or dashes; use a random UUID.',
      404,
    );
  return key;
};

/** Sends the events of a channel as server-sent events (WHATWG HTML, "Server-sent events") until the job ends or nobody listens. */
const stream = ({ channels }: Service, request: Request, response: Response): void => {
  const key = keyIn(request);
  response.writeHead(200, {
    'Content-Type': 'text/event-stream',
    'Cache-Control': 'no-store',
    Connection: 'keep-alive',
  });
  response.write(': open\n\n');
  const beat = setInterval(() => response.write(': still here\n\n'), HEARTBEAT_MS);
  const tell = (event: ProgressEvent): void => {
    response.write(`data: ${JSON.stringify(event)}\n\n`);
    if ((FINAL_STEPS as readonly string[]).includes(event.step)) response.end();
  };
  const stop = channels.listen(key, tell);
  response.once('close', () => {
    clearInterval(beat);
    stop();
  });
};

const cancel = async ({ channels }: Service, request: Request): Promise<void> => {
  if (!channels.cancel(keyIn(request)))
    throw new InputError(
      'nothing-to-cancel',
      'No reading is running under this name; it has ended already.',
      404,
    );
};

/** `/api/progress`: what a job is doing, and calling it off. */
export const progressRouter = (service: Service): Router => {
  const router = Router();
  router.get('/:key', (request, response) => stream(service, request, response));
  router.delete(
    '/:key',
    done((request) => cancel(service, request)),
  );
  return refuseOtherMethods(router);
};
