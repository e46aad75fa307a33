import { type Request, Router } from 'express';
import { CombinationRequestSchema } from '../../contract/combine.ts';
import { parseInput } from '../../contract/parse.ts';
import type { PhotoRecord } from '../../contract/record.ts';
import { InputError } from '../../errors.ts';
import { combineReadings, type PictureAnswer } from '../../reading/combine-readings.ts';
import type { Deps } from '../deps.ts';
import { refuseOtherMethods } from '../guards/refuse-other-methods.ts';
import { found, json } from '../handle.ts';
import type { Service } from '../service.ts';

/** A stored reading as one picture of the position; `number` counts from 1 in the order asked. */
const pictureOf = (record: PhotoRecord, number: number): PictureAnswer => {
  const { marks, id: reading } = record;
  const name = `picture ${number}`;
  switch (record.kind) {
    case 'lawn':
      return { name, reading, marks, kind: 'lawn', answer: record };
    case 'sighting':
      return { name, reading, marks, kind: 'sighting', answer: record };
    case 'check':
      throw new InputError(
        'not-a-position',
        `Picture ${number} is a court check, which looks for no balls; choose pictures of the balls.`,
      );
  }
};

const combine = async ({ store }: Deps, request: Request) => {
  const { readings, hoopScored } = parseInput(CombinationRequestSchema, request.body, 'request');
  if (new Set(readings).size < readings.length)
    throw new InputError('same-reading', 'One reading is named twice; name each picture once.');
  const records = await Promise.all(
    readings.map(async (id) => found(await store.records.get(id), 'reading')),
  );
  return combineReadings(
    records.map((record, i) => pictureOf(record, i + 1)),
    hoopScored,
  );
};

/** `/api/combinations`: one answer from several stored readings of balls that have not moved. Nothing is kept. */
export const combinationsRouter = ({ deps }: Service): Router => {
  const router = Router();
  router.post(
    '/',
    json((request) => combine(deps, request)),
  );
  return refuseOtherMethods(router);
};
