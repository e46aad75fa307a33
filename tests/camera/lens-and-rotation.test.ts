import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { monotoneLimit, stretch, unstretch } from '../../server/camera/lens.ts';
import {
  det3,
  lookAt,
  multiply3,
  nearestRotation,
  rotate,
  rotateBack,
  rotationBy,
} from '../../server/camera/rotation.ts';

describe('the lens', () => {
  it.each([
    // Roots of 1 + 3 k1 s + 5 k2 s², by hand.
    { name: 'no distortion', radial: [0, 0], limit: Number.POSITIVE_INFINITY },
    { name: 'pincushion', radial: [0.1, 0], limit: Number.POSITIVE_INFINITY },
    { name: 'pure barrel: 1/(3·0.2)', radial: [-0.2, 0], limit: 1 / 0.6 },
    { name: 'barrel held by k2: 0.36 − 4·0.25 < 0', radial: [-0.2, 0.05], limit: Number.POSITIVE_INFINITY },
    { name: 'falling k2: −5·0.1 s² + 1 = 0', radial: [0, -0.1], limit: Math.sqrt(2) },
    { name: 'both: 1 − 0.9 s + 0.1 s²', radial: [-0.3, 0.02], limit: (0.9 - Math.sqrt(0.41)) / 0.2 },
  ] as const)('is one to one up to the right radius: $name', ({ radial, limit }) => {
    expect(monotoneLimit(radial)).toBeCloseTo(limit, 10);
  });

  it('is undone by unstretch wherever it is one to one', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.35, max: 0.2, noNaN: true }),
        fc.double({ min: -0.1, max: 0.25, noNaN: true }),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        (k1, k2, share) => {
          const r = share * Math.min(3, Math.sqrt(monotoneLimit([k1, k2])));
          const seen = r * stretch([k1, k2], r * r);
          // Near the limit the lens is flat, so the radius is known less well than the seen one.
          expect(Math.abs(unstretch([k1, k2], seen) - r)).toBeLessThan(1e-6);
        },
      ),
    );
  });

  it('shows nothing beyond its largest radius', () => {
    // k1 = −0.2: the largest seen radius is at s = 1/0.6, r (1 − 0.2 s) = 1.291·(2/3) = 0.861.
    expect(unstretch([-0.2, 0], 0.86)).toBeGreaterThan(1.2);
    expect(unstretch([-0.2, 0], 0.87)).toBeNaN();
  });
});

describe('rotations', () => {
  it('turn by the right hand: a quarter about z takes x to y', () => {
    const [x, y, z] = rotate(rotationBy([0, 0, Math.PI / 2]), [1, 0, 0]);
    expect(x).toBeCloseTo(0, 12);
    expect(y).toBeCloseTo(1, 12);
    expect(z).toBeCloseTo(0, 12);
  });

  it('stay rotations, however small or large the turn, and are undone by their inverse', () => {
    const part = fc.double({ min: -3, max: 3, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(part, part, part), fc.constantFrom(1, 1e-4, 1e-9), (v, scale) => {
        const r = rotationBy([v[0] * scale, v[1] * scale, v[2] * scale]);
        expect(det3(r)).toBeCloseTo(1, 10);
        const back = rotateBack(r, rotate(r, [1, 2, 3]));
        expect(Math.hypot(back[0] - 1, back[1] - 2, back[2] - 3)).toBeLessThan(1e-10);
      }),
    );
  });

  it('nearest to a scaled rotation is that rotation', () => {
    const r = rotationBy([0.3, -0.4, 0.9]);
    const found = nearestRotation(r.map((value) => value * 2.5));
    for (let i = 0; i < 9; i++) expect(found[i]!).toBeCloseTo(r[i]!, 10);
  });

  it('of a level camera keep the horizon level and the picture upright', () => {
    const r = lookAt([0, 0, 5], [0, 10, 5]);
    // Looking north: right is east, down is down, forward is north.
    const expected = [1, 0, 0, 0, 0, -1, 0, 1, 0];
    for (let i = 0; i < 9; i++) expect(r[i]!).toBeCloseTo(expected[i]!, 12);
    expect(det3(lookAt([0, 0, 5], [0, 0, 0]))).toBeCloseTo(1, 12);
  });

  it('multiply in order: the second factor acts first', () => {
    const a = rotationBy([0, 0, 0.4]);
    const b = rotationBy([0.7, 0, 0]);
    const once = rotate(multiply3(a, b), [1, 2, 3]);
    const twice = rotate(a, rotate(b, [1, 2, 3]));
    for (let i = 0; i < 3; i++) expect(once[i]!).toBeCloseTo(twice[i]!, 12);
  });
});
