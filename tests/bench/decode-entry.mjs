// The reference in a thread of its own: neither it nor the reading pays for collecting the other's memory.
import { parentPort } from 'node:worker_threads';
import sharp from 'sharp';

parentPort.on('message', async (bytes) => {
  const start = performance.now();
  await sharp(bytes).raw().toBuffer();
  parentPort.postMessage(performance.now() - start);
});
