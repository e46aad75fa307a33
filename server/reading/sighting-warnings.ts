import type { SolvedCamera } from '../camera/types.ts';
import type { Warning } from '../contract/reading.ts';
import type { Sighting } from '../contract/sight.ts';

/** Where a sighting picture is worth less, metres: beside the line, too low to see the far mark, too far behind the near mark. */
const STANCE = { aside: 0.7, low: 0.9, behind: 8 } as const;
/** A standard deviation across the line beyond which the picture hardly helps, metres. */
const BLUNT = 0.02;

const stance = (camera: NonNullable<Sighting['camera']>): Warning[] => {
  const warnings: Warning[] = [];
  const aside = Math.abs(camera.aside);
  if (aside > STANCE.aside)
    warnings.push({
      code: 'stood-aside',
      message: `The phone was ${aside.toFixed(1)} m beside the line; stand behind the near marker so that the two markers line up.`,
    });
  if (camera.height < STANCE.low)
    warnings.push({
      code: 'stood-low',
      message: `The phone was only ${camera.height.toFixed(1)} m above the grass; hold it at eye height.`,
    });
  if (camera.behind > STANCE.behind)
    warnings.push({
      code: 'stood-far-back',
      message: `The phone was ${camera.behind.toFixed(0)} m behind the near marker; come closer, two or three metres are best.`,
    });
  return warnings;
};

/** The marks besides the two ends scatter so many times more than fingers and the setting of a court explain: chance does so less than once in a thousand sightings with two such marks. */
const DISAGREE = 2.5;

/** The other marks do not fit the two ends of the line, `ends`; the one that fits worst is named. */
export const scatterWarnings = (
  { scatter, marks }: Pick<SolvedCamera, 'scatter' | 'marks'>,
  ends: readonly string[],
): Warning[] => {
  const px = ({ residual: [x, y] }: SolvedCamera['marks'][number]): number => Math.hypot(x, y);
  const [worst] = marks.filter(({ name }) => !ends.includes(name)).sort((a, b) => px(b) - px(a));
  if (scatter === undefined || scatter < DISAGREE || !worst) return [];
  return [
    {
      code: 'marks-disagree',
      message: `The other marks do not fit the two ends of the line, ${worst.name} worst (${px(worst).toFixed(0)} px), so they count for little. Look at that mark first; or a marker stands out of its place, or the photo was cropped on one side.`,
    },
  ];
};

/** Balls that are too close to call because the picture is not sharp enough there. */
export const bluntWarnings = (balls: Sighting['balls']): Warning[] =>
  balls
    .filter(({ lies, sd }) => lies === 'tooClose' && sd > BLUNT)
    .map(({ colour, sd }) => ({
      code: 'sighting-blunt',
      message: `The ${colour} ball is measured to ${Math.round(sd * 1000)} mm only; go to the end of the line that is nearer to it.`,
    }));

/** Advice that goes with a sighting picture: how to stand, and a far marker that could not be measured. */
export const sightingWarnings = (
  camera: NonNullable<Sighting['camera']>,
  balls: Sighting['balls'],
  farSeen: boolean,
  farInPicture: boolean,
): Warning[] => {
  const warnings = stance(camera);
  if (!farSeen || !farInPicture)
    warnings.push({
      code: 'far-mark-not-seen',
      message:
        'The far marker could not be made out, so the answer rests on your mark of it. Have somebody hold something white at its foot and take the picture again.',
    });
  return [...warnings, ...bluntWarnings(balls)];
};
