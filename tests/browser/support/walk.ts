import { resolve } from 'node:path';
import type { Page } from 'playwright-core';

/** Path of a fixture photo. */
export const photoFile = (name: string): string =>
  resolve(import.meta.dirname, '..', '..', '..', 'fixtures', 'photos', name);

/** How long a reading may take on a busy machine, ms. */
export const READING = 120_000;

/** Opens the start and chooses a photo from the files; ends on the photo step. */
export const choosePhoto = async (page: Page, address: string, file: string): Promise<void> => {
  await page.goto(address);
  await page.locator('input[data-photo-file]').first().setInputFiles(file);
  await page.waitForURL(/\/photo\//);
};

/** From the photo step to the pins. */
export const toMarks = async (page: Page): Promise<void> => {
  await page.getByRole('button', { name: /^Pin the/ }).click();
  await page.waitForURL(/\/marks\//);
  await page.locator('[data-pin]').first().waitFor();
};

/** The sample lawn, one tap from the start to a call that is on the screen with its picture. */
export const sampleCall = async (page: Page, address: string): Promise<string> => {
  await page.goto(address);
  await page.getByRole('button', { name: 'Make the call on this lawn' }).first().click();
  await page.waitForURL(/\/call\//, { timeout: READING });
  await page.locator('[data-stage]').first().waitFor();
  return page.url().split('/').at(-1)!;
};
