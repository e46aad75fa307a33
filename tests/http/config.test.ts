import { expect, it } from 'vitest';
import { DEFAULT_LIMITS, readConfig } from '../../server/config.ts';
import { addressOf } from '../../server/wiring/listen.ts';

it('listens on loopback and keeps its data beside it unless told otherwise', () => {
  expect(readConfig({ SWARD_HOST: '' })).toEqual({
    host: '127.0.0.1',
    port: 8080,
    data: './data',
    databaseUrl: null,
    dev: false,
    names: [],
    logLevel: 'info',
    limits: DEFAULT_LIMITS,
  });
});

it('takes what the environment says', () => {
  const config = readConfig({
    SWARD_HOST: '0.0.0.0',
    SWARD_PORT: '80',
    SWARD_DATA: '/srv/sward',
    DATABASE_URL: 'postgres://sward@db/lawns',
    SWARD_DEV: '1',
    SWARD_NAMES: 'lawn.fernbeck.example,sward',
  });
  expect(config).toMatchObject({ host: '0.0.0.0', port: 80, data: '/srv/sward', dev: true });
  expect(config.databaseUrl).toBe('postgres://sward@db/lawns');
  expect(config.names).toEqual(['lawn.fernbeck.example', 'sward']);
});

it('names every bad variable in one error, and no password', () => {
  const read = () =>
    readConfig({
      SWARD_PORT: '70000',
      DATABASE_URL: 'mysql://sward:secret@db',
      SWARD_NAMES: 'a b',
      SWARD_LOG: 'loud',
    });
  expect(read).toThrow(
    /SWARD_PORT is "70000".*DATABASE_URL is another text.*SWARD_NAMES is "a b".*SWARD_LOG is "loud"/,
  );
  expect(read).not.toThrow(/secret/);
});

it.each([
  ['127.0.0.1', 8080, 'http://localhost:8080'],
  ['0.0.0.0', 80, 'http://localhost:80'],
  ['192.168.1.7', 8080, 'http://192.168.1.7:8080'],
  ['fe80::1', 8080, 'http://[fe80::1]:8080'],
])('tells the address to open for %s', (host, port, address) => {
  expect(addressOf(host, port)).toBe(address);
});
