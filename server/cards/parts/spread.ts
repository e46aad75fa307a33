/** A place on a sheet, pt. */
type Place = { readonly x: number; readonly y: number };

const ROUNDS = 60;

/**
 * Moves discs of radius `radius` apart until none covers another, each as little as it must: pairs that overlap are pushed from each other in
 * turn. Two in one place are parted along x. The order of the places is kept.
 */
export const spread = (places: readonly Place[], radius: number): Place[] => {
  const moved = places.map(({ x, y }) => ({ x, y }));
  const apart = radius * 2.15;
  for (let round = 0; round < ROUNDS; round += 1) {
    let still = true;
    for (let i = 0; i < moved.length; i += 1)
      for (let j = i + 1; j < moved.length; j += 1) {
        const [a, b] = [moved[i]!, moved[j]!];
        const [dx, dy] = [b.x - a.x, b.y - a.y];
        const distance = Math.hypot(dx, dy);
        if (distance >= apart) continue;
        still = false;
        const push = (apart - distance) / 2 + 0.01;
        const [ux, uy] = distance > 1e-6 ? [dx / distance, dy / distance] : [1, 0];
        moved[i] = { x: a.x - ux * push, y: a.y - uy * push };
        moved[j] = { x: b.x + ux * push, y: b.y + uy * push };
      }
    if (still) break;
  }
  return moved;
};
