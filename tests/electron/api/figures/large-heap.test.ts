import { execFileSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { manyCars, restsAfter } from '../../../../electron/api/figures/large-heap.ts';

const at = (place: string) => JSON.stringify(new URL(`../../../../electron/${place}`, import.meta.url).href);

const printed = (program: string): number =>
  Number(
    execFileSync(
      process.execPath,
      [
        '--input-type=module',
        '--eval',
        `import ${at('service/small-heap.ts')};
        import { getHeapStatistics } from 'node:v8';
        import { heedHeap } from ${at('api/figures/large-heap.ts')};
        ${program}`,
      ],
      { encoding: 'utf8' },
    ),
  );

/**
 * The largest heap, in bytes, of a service that holds 300,000 objects and replaces a quarter of them forty times, after
 * it began to work out the figures of so many cars.
 */
const mostHeap = (cars: number): number =>
  printed(`
    heedHeap(${cars});
    const held = Array.from({ length: 300_000 }, (_, i) => ({ i, range: { low: i, high: i + 1 } }));
    let most = 0;
    for (let round = 0; round < 40; round++) {
      for (let i = round % 4; i < held.length; i += 4) held[i] = { i, range: { low: i, high: round } };
      most = Math.max(most, getHeapStatistics().total_heap_size);
    }
    console.log(most);`);

/** The share of its heap that a service has given back when it has come to rest, of what 300,000 objects took that nobody holds. */
const givenBack = (cars: number): number =>
  printed(`
    const { mock } = await import('node:test');
    mock.timers.enable({ apis: ['setTimeout'] });
    globalThis.held = Array.from({ length: 300_000 }, (_, i) => ({ i, range: { low: i, high: i + 1 } }));
    const before = getHeapStatistics().total_heap_size;
    heedHeap(${cars});
    delete globalThis.held;
    mock.timers.tick(${restsAfter});
    console.log(1 - getHeapStatistics().total_heap_size / before);`);

// Fragile by their nature, as that of the small heap: another V8 may set its bounds otherwise. When one falls after a
// change of Node or Electron, measure the service's memory (tests/bench/memory.ts) before anything else.
it('lets the heap grow less before it looks for what can go, where there are many cars', () => {
  const usual = mostHeap(manyCars - 1);
  expect(mostHeap(manyCars)).toBeLessThan(0.7 * usual);
});

it('gives back once what it no longer needs, where there are many cars', () => {
  expect(givenBack(manyCars - 1)).toBeLessThan(0.1);
  expect(givenBack(manyCars)).toBeGreaterThan(0.5);
});
