import { Router } from 'express';
import { QuestionSchema } from '../../contract/judge.ts';
import { parseInput } from '../../contract/parse.ts';
import { refuseOtherMethods } from '../guards/refuse-other-methods.ts';
import { json } from '../handle.ts';
import type { Service } from '../service.ts';

/** `/api/judge`: the rules alone, no picture. */
export const judgeRouter = ({ deps }: Service): Router => {
  const router = Router();
  router.post(
    '/',
    json((request) => deps.judge(parseInput(QuestionSchema, request.body, 'question'))),
  );
  return refuseOtherMethods(router);
};
