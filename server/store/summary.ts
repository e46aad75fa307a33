import type { PhotoRecord, RecordSummary } from '../contract/record.ts';

const ballsOf = (record: PhotoRecord): RecordSummary['balls'] => {
  switch (record.kind) {
    case 'lawn':
      return record.balls.map(({ colour, x, y }) => ({
        colour,
        x,
        y,
        lies: record.call?.balls.find((called) => called.colour === colour)?.lies ?? null,
      }));
    case 'sighting':
      return record.balls.map(({ colour, lies }) => ({ colour, x: null, y: null, lies }));
    case 'check':
      return [];
  }
};

/** The line that stands for `record` in a list. */
export const summaryOf = (record: PhotoRecord): RecordSummary => ({
  id: record.id,
  kind: record.kind,
  revision: record.revision,
  createdAt: record.createdAt,
  photoId: record.photoId,
  game: record.game,
  spot: record.spot,
  note: record.note,
  sentence: record.sentence,
  hoopScored: record.marks.hoopScored ?? null,
  balls: ballsOf(record),
});
