import { execFileSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { manyCars, restsAfter } from '../../../../electron/api/session/large-heap.ts';

const at = (place: string) => JSON.stringify(new URL(`../../../../electron/${place}`, import.meta.url).href);

const printed = <T>(program: string): T =>
  JSON.parse(
    execFileSync(
      process.execPath,
      [
        '--input-type=module',
        '--eval',
        `import ${at('service/small-heap.ts')};
        import { getHeapStatistics } from 'node:v8';
        import { atWork, easeHeap, heedHeap } from ${at('api/session/large-heap.ts')};
        ${program}`,
      ],
      { encoding: 'utf8' },
    ),
  );

/**
 * The largest heap, in bytes, of a service that holds 300,000 objects and replaces a quarter of them forty times, after
 * it began to work out the figures of so many cars and, perhaps, is done with them.
 */
const mostHeap = (cars: number, isDone = false): number =>
  printed(`
    heedHeap(${cars});
    ${isDone ? 'easeHeap();' : ''}
    const held = Array.from({ length: 300_000 }, (_, i) => ({ i, range: { low: i, high: i + 1 } }));
    let most = 0;
    for (let round = 0; round < 40; round++) {
      for (let i = round % 4; i < held.length; i += 4) held[i] = { i, range: { low: i, high: round } };
      most = Math.max(most, getHeapStatistics().total_heap_size);
    }
    console.log(most);`);

/**
 * The shares of its heap that a service has given back of what 300,000 objects took that nobody holds: just before it
 * has rested long enough, as long after it was asked for something else, and when nobody has asked since.
 */
const givenBack = (cars: number): number[] =>
  printed(`
    const { mock } = await import('node:test');
    mock.timers.enable({ apis: ['setTimeout'] });
    globalThis.held = Array.from({ length: 300_000 }, (_, i) => ({ i, range: { low: i, high: i + 1 } }));
    const before = getHeapStatistics().total_heap_size;
    const share = () => 1 - getHeapStatistics().total_heap_size / before;
    heedHeap(${cars});
    atWork();
    delete globalThis.held;
    const shares = [];
    mock.timers.tick(${restsAfter - 1});
    shares.push(share());
    atWork();
    mock.timers.tick(${restsAfter - 1});
    shares.push(share());
    mock.timers.tick(1);
    shares.push(share());
    console.log(JSON.stringify(shares));`);

// Fragile by their nature, as that of the small heap: another V8 may set its bounds otherwise. When one falls after a
// change of Node or Electron, measure the service's memory (tests/bench/memory.ts) before anything else.
it('lets the heap grow less before it looks for what can go, while many cars are worked out', () => {
  const usual = mostHeap(manyCars - 1);
  expect(mostHeap(manyCars)).toBeLessThan(0.7 * usual);
  expect(mostHeap(manyCars, true)).toBeGreaterThan(0.8 * usual);
});

it('gives back what it no longer needs when nobody asks for anything, where there are many cars', () => {
  for (const share of givenBack(manyCars - 1)) expect(share).toBeLessThan(0.1);
  const [early, whileAtWork, atRest] = givenBack(manyCars);
  expect(early).toBeLessThan(0.1);
  expect(whileAtWork).toBeLessThan(0.1);
  expect(atRest).toBeGreaterThan(0.5);
});
