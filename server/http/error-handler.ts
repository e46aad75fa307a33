import type { ErrorRequestHandler, RequestHandler } from 'express';
import { MulterError } from 'multer';
import { LARGEST_UPLOAD } from '../contract/photo.ts';
import type { ErrorBody } from '../contract/service.ts';
import { InputError } from '../errors.ts';
import type { Log } from '../logging.ts';

const MEGA = 1e6;

const ofUpload = (error: MulterError): InputError => {
  switch (error.code) {
    case 'LIMIT_FILE_SIZE':
      return new InputError(
        'photo-too-heavy',
        `The photo has more than ${LARGEST_UPLOAD / MEGA} MB, which is the most that is taken: save it with stronger compression or fewer pixels.`,
        413,
      );
    case 'LIMIT_UNEXPECTED_FILE':
    case 'LIMIT_FILE_COUNT':
      return new InputError(
        'unexpected-file',
        'Exactly one file is taken, in the field "photo"; send it there.',
        400,
      );
    default:
      return new InputError(
        'bad-upload',
        `The upload could not be read (${error.message.toLowerCase()}); send one photo and its marks.`,
        400,
      );
  }
};

/** Faults of the body parser by their `type` (body-parser's documentation, "Errors"). */
const OF_BODY: Readonly<Record<string, readonly [string, number, string]>> = {
  'entity.parse.failed': ['not-json', 400, 'The request could not be read as JSON; send one JSON object.'],
  'entity.too.large': ['too-large', 413, 'The request is larger than is taken here; send less at once.'],
  'request.aborted': ['request-cut-off', 400, 'The request broke off before its end; send it again.'],
  'request.size.invalid': ['request-cut-off', 400, 'The request broke off before its end; send it again.'],
  'charset.unsupported': ['charset', 415, 'The request is in a charset that is not read here; send UTF-8.'],
  'encoding.unsupported': [
    'encoding',
    415,
    'The request is packed in a way that is not read here; send it plain.',
  ],
};

/** An error as the client is told it; null when it is a fault of the program. */
const asInput = (error: unknown): InputError | null => {
  if (error instanceof InputError) return error;
  if (error instanceof MulterError) return ofUpload(error);
  const { type, status, name, message } = error as {
    type?: string;
    status?: number;
    name?: string;
    message?: string;
  };
  const known = type === undefined ? undefined : OF_BODY[type];
  if (known) return new InputError(known[0], known[2], known[1]);
  if (name === 'AbortError')
    return new InputError('cancelled', 'The reading was called off; nothing was kept.', 409);
  if (
    message === 'Unexpected end of form' ||
    message?.startsWith('Multipart') ||
    message?.startsWith('Malformed')
  )
    return new InputError(
      'bad-upload',
      'The upload broke off or has no proper form; send the photo again.',
      400,
    );
  if (status !== undefined && status >= 400 && status < 500)
    return new InputError(
      'bad-request',
      'The request could not be understood; check its address and form.',
      status,
    );
  return null;
};

const FAULT: ErrorBody = {
  error: {
    code: 'fault',
    message:
      'Something went wrong inside the program. What was kept before is safe; try again, and look at the log if it happens twice.',
  },
};

/** Seconds after which a busy service may be asked again. */
const RETRY_SECONDS = '3';

/** The one place where errors become answers. A fault of the program is logged with its stack and told without it. */
export const errorHandler =
  (log: Log): ErrorRequestHandler =>
  (error, _request, response, next) => {
    const input = asInput(error);
    if (input === null) log.error({ err: error }, 'fault');
    if (response.headersSent) return next(error);
    if (input === null) return void response.status(500).json(FAULT);
    if (input.status === 503) response.set('Retry-After', RETRY_SECONDS);
    const { code, message, details } = input;
    response.status(input.status).json({ error: { code, message, ...(details && { details }) } });
  };

/** Answers whatever no route took. */
export const notFound: RequestHandler = () => {
  throw new InputError(
    'not-found',
    'There is nothing at this address; the routes are described at /api/docs.',
    404,
  );
};
