import type { RecordKind } from '../../server/contract/record.ts';
import type { BallColour } from '../../server/lawn/colours.ts';
import type { HoopPoint } from '../../server/lawn/hoops.ts';
import type { PointName } from '../../server/lawn/named-points.ts';

/** Pins on the photo, px of the upright picture. */
export type Pins = Partial<Record<PointName, readonly [number, number]>>;

/** What a court check is asked beside the picture; null stands for the club's settings, or for no tape. Metres. */
export type CourtQuestion = {
  readonly tolerance: number | null;
  readonly size: { readonly width: number; readonly length: number } | null;
  readonly taped: { readonly from: PointName; readonly to: PointName; readonly distance: number } | null;
};

/** A check against the club's settings, without a tape. */
export const PLAIN_QUESTION: CourtQuestion = { tolerance: null, size: null, taped: null };

/** Where a draft is on its way: being marked, waiting for the server, being read, or read. */
export type DraftState = 'marking' | 'waiting' | 'read';

/**
 * A photo and its marks on the way to a reading. It lives in this browser until it is deleted, whether or not the server can be reached.
 * `sendKey` changes with every change of the marks, so that sending the same marks twice stores one reading.
 */
export type Draft = {
  readonly id: string;
  readonly kind: RecordKind;
  readonly createdAt: number;
  /** Counts up with each change; a tab that holds an older one gives way. */
  readonly version: number;
  readonly name: string;
  /** Size in px of the upright picture; null until it could be opened. */
  readonly size: { readonly width: number; readonly height: number } | null;
  /** Whether this browser can show the file itself; if not, the server's upright copy is shown. */
  readonly shownHere: boolean;
  readonly pins: Pins;
  readonly hoopScored: HoopPoint | null;
  readonly balls: readonly BallColour[];
  readonly spot: string | null;
  readonly game: string | null;
  /** Of a court check only. */
  readonly court?: CourtQuestion;
  /** Of a picture along the line only: the club's lawn it shows, if it is one, and whether that lawn's court check is used. */
  readonly lawn?: string | null;
  readonly useChecked?: boolean;
  readonly state: DraftState;
  readonly photoId: string | null;
  readonly readingId: string | null;
  readonly sendKey: string;
  /** Earlier pins, the latest last, for undo. */
  readonly past: readonly Pins[];
  /** Where the first pins came from; null once a hand has moved one. */
  readonly pinsFrom: PinsFrom | null;
  /** Whether the way goes on to the call without a stop at the balls. */
  readonly straightToCall: boolean;
  /** The server's refusal of the last sending, in its words. */
  readonly trouble: string | null;
};

/** Where pins that nobody has touched came from: the last picture from this spot, the white lines in this one, or nowhere. */
export type PinsFrom = 'spot' | 'lines' | 'nowhere';

/** As many steps back as are kept. */
const MOST_PAST = 60;

/** What a change of marks may set. */
export type MarksChange = Partial<
  Pick<Draft, 'pins' | 'hoopScored' | 'balls' | 'spot' | 'game' | 'court' | 'lawn' | 'useChecked'>
>;

/** A draft with changed marks: it is to be read again, under a new key. Pins before the change are kept for undo. */
export const changeMarks = (draft: Draft, change: MarksChange, key: string): Draft => ({
  ...draft,
  ...change,
  past: change.pins ? [...draft.past, draft.pins].slice(-MOST_PAST) : draft.past,
  pinsFrom: change.pins ? null : draft.pinsFrom,
  state: 'marking',
  trouble: null,
  sendKey: key,
});

/** One step back, or the draft itself when there is none. */
export const undoMarks = (draft: Draft, key: string): Draft => {
  const pins = draft.past.at(-1);
  if (!pins) return draft;
  return { ...draft, pins, past: draft.past.slice(0, -1), state: 'marking', trouble: null, sendKey: key };
};

/** The lawn as the server takes it: the club's, of the size a check was told. */
const lawnOf = (
  { court, lawn }: Pick<Draft, 'court' | 'lawn'>,
  { width, length, unevenness }: { width: number; length: number; unevenness: number },
) => ({ width, length, unevenness, ...court?.size, ...(lawn && { id: lawn }) });

/** The marks as the server takes them. A point scored that ends the game asks for no line. */
export const marksOf = (
  draft: Pick<Draft, 'pins' | 'hoopScored' | 'balls' | 'court' | 'lawn' | 'useChecked'>,
  club: { certainty: number; lawn: { width: number; length: number; unevenness: number } },
) => ({
  points: Object.fromEntries(
    Object.entries(draft.pins).map(([name, [x, y]]) => [name, [x, y] as [number, number]]),
  ),
  ...(draft.hoopScored !== null && draft.hoopScored < 13 && { hoopScored: draft.hoopScored }),
  balls: [...draft.balls],
  certainty: club.certainty,
  lawn: lawnOf(draft, club.lawn),
  ...(draft.useChecked === false && { useChecked: false }),
  ...(draft.court?.tolerance && { tolerance: draft.court.tolerance }),
  ...(draft.court?.taped && { taped: draft.court.taped }),
});
