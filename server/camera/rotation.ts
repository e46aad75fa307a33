import { Matrix, SingularValueDecomposition } from 'ml-matrix';

/** Three numbers: a vector in the lawn's or the camera's axes. */
export type Vector3 = readonly [number, number, number];
/** A 3 × 3 rotation lawn → camera, row by row. */
export type Rotation = readonly number[];

/** R v. */
export const rotate = (r: Rotation, [x, y, z]: Vector3): [number, number, number] => [
  r[0]! * x + r[1]! * y + r[2]! * z,
  r[3]! * x + r[4]! * y + r[5]! * z,
  r[6]! * x + r[7]! * y + r[8]! * z,
];

/** Rᵀ v: from the camera's axes back to the lawn's. */
export const rotateBack = (r: Rotation, [x, y, z]: Vector3): [number, number, number] => [
  r[0]! * x + r[3]! * y + r[6]! * z,
  r[1]! * x + r[4]! * y + r[7]! * z,
  r[2]! * x + r[5]! * y + r[8]! * z,
];

/** A B for 3 × 3 matrices row by row. */
export const multiply3 = (a: Rotation, b: Rotation): number[] => {
  const out: number[] = [];
  for (let i = 0; i < 9; i += 3)
    for (let j = 0; j < 3; j++) out.push(a[i]! * b[j]! + a[i + 1]! * b[j + 3]! + a[i + 2]! * b[j + 6]!);
  return out;
};

/** The rotation by the vector `turn` (radians, axis times angle): Rodrigues' formula, with its series where the angle vanishes. */
export const rotationBy = ([x, y, z]: Vector3): number[] => {
  const square = x * x + y * y + z * z;
  const angle = Math.sqrt(square);
  const a = angle < 1e-6 ? 1 - square / 6 : Math.sin(angle) / angle;
  const b = angle < 1e-6 ? 0.5 - square / 24 : (1 - Math.cos(angle)) / square;
  const c = 1 - b * square;
  return [
    c + b * x * x,
    b * x * y - a * z,
    b * x * z + a * y,
    b * x * y + a * z,
    c + b * y * y,
    b * y * z - a * x,
    b * x * z - a * y,
    b * y * z + a * x,
    c + b * z * z,
  ];
};

/** The rotation nearest to a 3 × 3 matrix (least squares of its entries, determinant +1), by singular value decomposition. */
export const nearestRotation = (m: readonly number[]): number[] => {
  const svd = new SingularValueDecomposition(Matrix.from1DArray(3, 3, [...m]), { autoTranspose: false });
  const u = svd.leftSingularVectors;
  const vt = svd.rightSingularVectors.transpose();
  const sign = det3(u.to1DArray()) * det3(vt.to1DArray()) < 0 ? -1 : 1;
  return u
    .mmul(Matrix.diag([1, 1, sign]))
    .mmul(vt)
    .to1DArray();
};

/** Determinant of a 3 × 3 matrix row by row. */
export const det3 = (m: readonly number[]): number =>
  m[0]! * (m[4]! * m[8]! - m[5]! * m[7]!) -
  m[1]! * (m[3]! * m[8]! - m[5]! * m[6]!) +
  m[2]! * (m[3]! * m[7]! - m[4]! * m[6]!);

/** The rotation of a camera at `position` that looks at `target`, held level and then turned clockwise by `roll` radians. */
export const lookAt = (position: Vector3, target: Vector3, roll = 0): number[] => {
  const forward = unit([target[0] - position[0], target[1] - position[1], target[2] - position[2]]);
  // Straight down there is no level: x east is taken as the picture's right.
  const level: Vector3 =
    Math.hypot(forward[0], forward[1]) < 1e-9 ? [1, 0, 0] : unit([forward[1], -forward[0], 0]);
  const down: Vector3 = [
    forward[1] * level[2] - forward[2] * level[1],
    forward[2] * level[0] - forward[0] * level[2],
    forward[0] * level[1] - forward[1] * level[0],
  ];
  return multiply3(rotationBy([0, 0, roll]), [...level, ...down, ...forward]);
};

const unit = ([x, y, z]: Vector3): Vector3 => {
  const length = Math.hypot(x, y, z);
  return [x / length, y / length, z / length];
};
