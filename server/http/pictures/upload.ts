import { randomUUID } from 'node:crypto';
import { readFile, rm } from 'node:fs/promises';
import type { Request, RequestHandler } from 'express';
import multer from 'multer';
import { LARGEST_UPLOAD } from '../../contract/photo.ts';
import { InputError } from '../../errors.ts';

/** Longest text field of a form in bytes: the marks of one photo take less than a hundredth of it. */
const LONGEST_FIELD = 200_000;
const MOST_FIELDS = 8;

/**
 * Takes a form with one file in the field `photo` and some text fields. The file is written to `folder` as it comes in, under a name of our
 * own; the name it was sent under is not used for anything.
 */
export const takeUpload = (folder: string): RequestHandler =>
  multer({
    storage: multer.diskStorage({
      destination: folder,
      filename: (_request, _file, name) => name(null, `${randomUUID()}.incoming`),
    }),
    limits: {
      fileSize: LARGEST_UPLOAD,
      files: 1,
      fields: MOST_FIELDS,
      parts: MOST_FIELDS + 1,
      fieldSize: LONGEST_FIELD,
      headerPairs: 20,
    },
    defParamCharset: 'utf8',
  }).single('photo');

/** The bytes that came in. Throws an InputError when the form holds no file. */
export const uploadedPhoto = async (request: Request): Promise<Uint8Array> => {
  if (request.file === undefined)
    throw new InputError(
      'no-photo',
      'The request holds no photo; send one file in the form field "photo".',
      400,
    );
  try {
    return await readFile(request.file.path);
  } catch {
    // The connection was lost meanwhile, and what had come in was removed.
    throw new InputError('request-cut-off', 'The upload broke off before its end; send it again.', 400);
  }
};

/** Removes the incoming file once the answer is sent or the connection is lost, whatever became of it. */
export const removeUpload: RequestHandler = (request, response, next) => {
  response.once('close', () => {
    // After a refused form the file is gone, and its path with it.
    const path = request.file?.path;
    if (path) rm(path, { force: true }).catch(() => undefined);
  });
  next();
};

/** A text field of the form; undefined when it is missing. */
export const fieldOf = (request: Request, name: string): string | undefined => {
  const value = (request.body as Record<string, unknown> | undefined)?.[name];
  return typeof value === 'string' && value !== '' ? value : undefined;
};
