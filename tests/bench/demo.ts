/**
 * The demo made, its photographs drawn, in processor time; beside it the same photographs brought from their
 * files to smaller copies once more by the image library alone. Run: node tests/bench/demo.ts
 */
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createRouterClient } from '@orpc/server';
import sharp from 'sharp';
import { router } from '../../electron/api/router.ts';
import { createSession } from '../../electron/api/session/session.ts';
import { measured, timed } from './measure.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-bench-'));
const dir = join(folder, 'Demo');
const session = createSession({
  host: 'command line',
  now: () => new Date(2026, 2, 14, 12),
  defaultDir: join(folder, 'Collection'),
  demoDir: dir,
  version: '0.0.0',
});
const api = createRouterClient(router, { context: { session } });
try {
  const began = performance.now();
  const demo = await timed(async () => {
    for await (const _ of await api.collection.openDemo());
  });
  const clock = (performance.now() - began) / 1000;
  const photos = join(dir, 'photos');
  const originals = readdirSync(photos, { recursive: true, withFileTypes: true })
    .filter(entry => entry.isFile() && !entry.parentPath.includes('thumbnails'))
    .map(entry => join(entry.parentPath, entry.name));
  const bare = await timed(async () => {
    for (const original of originals) {
      await sharp(original).jpeg().toBuffer();
      for (const size of [320, 1280])
        await sharp(original).resize(size, size, { fit: 'inside' }).webp().toBuffer();
    }
  });
  measured({
    work: `the demo made, with its ${originals.length} photographs, processor time`,
    value: demo.ms / 1000,
    unit: 's',
    beside: { what: 'encoding these photographs', value: bare.ms / 1000 },
    goal: null,
  });
  measured({ work: 'the demo made, on the clock', value: clock, unit: 's', goal: 20 });
} finally {
  await session.close();
  rmSync(folder, { recursive: true, force: true });
}
