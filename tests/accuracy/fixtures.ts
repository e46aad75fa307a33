import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BallColour } from '../../server/lawn/colours.ts';

/** Folders of the pictures with known truth: path-traced ones, and those rendered from the scene files. */
export const FOLDERS = ['photos', 'rendered'].map(
  (folder) => new URL(`../../fixtures/${folder}/`, import.meta.url).pathname,
);

/** Truth of one ball: metres on the lawn, and the share of its outline that no thing hides when the scene knows it. */
export type TrueBall = {
  readonly colour: BallColour;
  readonly x: number;
  readonly y: number;
  readonly beyond_mm: number;
  readonly image: readonly [number, number];
  readonly in_frame: boolean;
  readonly visible?: number;
};

/** Truth of a rendered picture. */
export type Truth = {
  readonly name: string;
  readonly kind: 'lawn' | 'sighting' | 'check';
  readonly hoopScored: number;
  readonly halfway: { readonly axis: 'x' | 'y'; readonly at_m: number; readonly next_hoop_side: 1 | -1 };
  readonly court: { readonly width: number; readonly length: number };
  readonly balls: readonly TrueBall[];
  readonly undulation_m?: number;
  readonly [field: string]: unknown;
};

/** One picture with its marks and truth. */
export type Fixture = {
  readonly name: string;
  readonly photo: string;
  readonly marks: unknown;
  readonly truth: Truth;
};

const readJson = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));

const inFolder = (folder: string): Fixture[] =>
  readdirSync(folder)
    .filter((file) => file.endsWith('.truth.json'))
    .map((file) => file.slice(0, -'.truth.json'.length))
    .filter((name) => existsSync(join(folder, `${name}.marks.json`)))
    .sort()
    .map((name) => ({
      name,
      photo: join(folder, `${name}.jpg`),
      marks: readJson(join(folder, `${name}.marks.json`)),
      truth: readJson(join(folder, `${name}.truth.json`)) as Truth,
    }));

/** Every picture in `folders` that has truth and marks beside it, by folder and name. */
export const loadFixtures = (folders: readonly string[] = FOLDERS): Fixture[] =>
  folders.filter(existsSync).flatMap(inFolder);
