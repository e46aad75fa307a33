import { randomUUID } from 'node:crypto';
import { readFile, rm } from 'node:fs/promises';
import type { Request, RequestHandler } from 'express';
import multer from 'multer';
import { LARGEST_UPLOAD } from '../../contract/photo.ts';
import { InputError } from '../../errors.ts';

/** Longest text of a form in bytes: the marks of one photo take less than a hundredth of it. */
const LONGEST_TEXT = 200_000;
const MOST_FIELDS = 8;

type Uploaded = Partial<Record<'photo' | 'marks', Express.Multer.File[]>>;

/** The file in field `name` of a request's form; undefined when there is none. */
const fileIn = (request: Request, name: keyof Uploaded): Express.Multer.File | undefined =>
  (request.files as Uploaded | undefined)?.[name]?.[0];

/**
 * Takes a form with one file in the field `photo` and some text fields, of which `marks` may be a file as well. Files are written to `folder` as
 * they come in, under names of our own; the names they were sent under are not used for anything.
 */
export const takeUpload = (folder: string): RequestHandler =>
  multer({
    storage: multer.diskStorage({
      destination: folder,
      filename: (_request, _file, name) => name(null, `${randomUUID()}.incoming`),
    }),
    limits: {
      fileSize: LARGEST_UPLOAD,
      files: 2,
      fields: MOST_FIELDS,
      parts: MOST_FIELDS + 2,
      fieldSize: LONGEST_TEXT,
      headerPairs: 20,
    },
    defParamCharset: 'utf8',
  }).fields([
    { name: 'photo', maxCount: 1 },
    { name: 'marks', maxCount: 1 },
  ]);

const cutOff = (): InputError =>
  new InputError('request-cut-off', 'The upload broke off before its end; send it again.', 400);

/** What came in as a file; the connection may be lost meanwhile, and the file with it. */
const contentOf = (file: Express.Multer.File): Promise<Buffer> =>
  readFile(file.path).catch(() => {
    throw cutOff();
  });

/** The bytes that came in. Throws an InputError when the form holds no file. */
export const uploadedPhoto = async (request: Request): Promise<Uint8Array> => {
  const file = fileIn(request, 'photo');
  if (file === undefined)
    throw new InputError(
      'no-photo',
      'The request holds no photo; send one file in the form field "photo".',
      400,
    );
  return contentOf(file);
};

/** The marks of a form as text, sent as a field or as a file. Throws an InputError when there are none. */
export const uploadedMarks = async (request: Request): Promise<string> => {
  const file = fileIn(request, 'marks');
  if (file && file.size > LONGEST_TEXT)
    throw new InputError(
      'too-large',
      'The marks are larger than any marks of a photo can be; send the right file.',
      413,
    );
  const text = file ? (await contentOf(file)).toString('utf8') : fieldOf(request, 'marks');
  if (text === undefined)
    throw new InputError(
      'no-marks',
      'The request holds no marks; send them as JSON in the form field "marks".',
      400,
    );
  return text;
};

/** Removes the incoming files once the answer is sent or the connection is lost, whatever became of it. */
export const removeUpload: RequestHandler = (request, response, next) => {
  response.once('close', () => {
    // After a refused form the files are gone, and their paths with them.
    for (const path of [fileIn(request, 'photo')?.path, fileIn(request, 'marks')?.path])
      if (path) rm(path, { force: true }).catch(() => undefined);
  });
  next();
};

/** A text field of the form; undefined when it is missing. */
export const fieldOf = (request: Request, name: string): string | undefined => {
  const value = (request.body as Record<string, unknown> | undefined)?.[name];
  return typeof value === 'string' && value !== '' ? value : undefined;
};
