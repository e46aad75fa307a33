import { QuestionSchema } from '../../contract/judge.ts';
import { parseInput, parseJson } from '../../contract/parse.ts';
import { judge } from '../../rules/judge.ts';
import { type Command, givenTo } from '../command.ts';
import { readNamedText } from '../files.ts';
import { sayJudgement } from '../say/say-judgement.ts';

const usage = 'judge FILE [--json]';

/** Answers a question to the rules, without a picture. */
export const command: Command = {
  usage,
  summary: 'what the rules say to a question, without a picture',
  run: async (words, output) => {
    const given = givenTo(usage, words, false);
    const text = await readNamedText(given.file, 'question file');
    const answer = judge(parseInput(QuestionSchema, parseJson(text, 'question'), 'question'));
    output(given.json ? JSON.stringify(answer) : sayJudgement(answer).join('\n'));
  },
};
