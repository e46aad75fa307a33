import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';

/** Debian's chromium; another one by environment. */
const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** The sizes everything is looked at in, CSS px: a phone upright and turned, a desktop. */
export const SIZES = {
  phone: { width: 390, height: 844 },
  turned: { width: 844, height: 390 },
  desktop: { width: 1280, height: 800 },
} as const;
export type SizeName = keyof typeof SIZES;

/** Opens chromium headless, without network services of its own. */
export const openBrowser = (): Promise<Browser> =>
  chromium.launch({
    executablePath: CHROMIUM,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });

/** How long anything is waited for, ms: what comes at once on a quiet machine takes its time on a busy one. */
const WAITS = 90_000;

/** How a fresh visitor comes: size, colours, whether the offline shell may install itself. */
export type Visitor = {
  readonly size?: SizeName;
  readonly dark?: boolean;
  readonly shell?: boolean;
};

/** A fresh visitor: nothing kept from before. Motion is off, so that a picture of the screen is the same each time. */
export const visit = async (
  browser: Browser,
  { size = 'phone', dark = false, shell = false }: Visitor = {},
): Promise<BrowserContext> => {
  const context = await browser.newContext({
    viewport: SIZES[size],
    hasTouch: size !== 'desktop',
    isMobile: size !== 'desktop',
    deviceScaleFactor: size === 'desktop' ? 1 : 2,
    colorScheme: dark ? 'dark' : 'light',
    reducedMotion: 'reduce',
    locale: 'en-GB',
    serviceWorkers: shell ? 'allow' : 'block',
    acceptDownloads: true,
  });
  context.setDefaultTimeout(WAITS);
  return context;
};

/** Collects what the page complains of in its console; a screen that works complains of nothing. */
export const complaintsOf = (page: Page): string[] => {
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('console', (message) => {
    // A refused request is the test's own doing and the page's to explain; chromium notes each.
    if (message.type() === 'error' && !message.text().startsWith('Failed to load resource'))
      complaints.push(message.text());
  });
  return complaints;
};
