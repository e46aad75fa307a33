/** A disc on the plan: the place it stands for, and where it is drawn. */
export type SpreadDisc = { readonly x: number; readonly y: number };

const ROUNDS = 60;

/**
 * Where to draw discs of radius `radius` so that none covers another, each as near its own place as that allows. The order is kept and
 * nothing is random; discs at the very same place are parted west and east.
 */
export const spreadDiscs = (places: readonly SpreadDisc[], radius: number): SpreadDisc[] => {
  const drawn = places.map(({ x, y }) => ({ x, y }));
  const apart = 2 * radius * 1.08;
  for (let round = 0; round < ROUNDS; round++) {
    let moved = false;
    for (let i = 0; i < drawn.length; i++) {
      for (let j = i + 1; j < drawn.length; j++) {
        const a = drawn[i]!;
        const b = drawn[j]!;
        const dx = b.x - a.x;
        const dy = b.y - a.y;
        const gap = Math.hypot(dx, dy);
        if (gap >= apart - 1e-9) continue;
        const [ux, uy] = gap > 1e-9 ? [dx / gap, dy / gap] : [1, 0];
        const push = (apart - gap) / 2;
        a.x -= ux * push;
        a.y -= uy * push;
        b.x += ux * push;
        b.y += uy * push;
        moved = true;
      }
    }
    if (!moved) break;
  }
  return drawn;
};
