import { execFileSync } from 'node:child_process';
import { expect, it } from 'vitest';

const smallHeap = new URL('../../../electron/service/small-heap.ts', import.meta.url).href;

/**
 * Lists are made and dropped, as a service does; prints the largest space of new objects, and the heap at
 * the end, in bytes.
 */
const work = `
import { getHeapSpaceStatistics, getHeapStatistics } from 'node:v8';
let most = 0;
for (let round = 0; round < 12; round++) {
  const list = Array.from({ length: 150_000 }, (_, i) => ({ i, label: 'car ' + i, range: { low: i, high: i + 1 } }));
  if (list.length === 0) throw new Error('nothing was made');
  most = Math.max(most, getHeapSpaceStatistics().find(space => space.space_name === 'new_space').space_size);
}
console.log(JSON.stringify([most, getHeapStatistics().total_heap_size]));
`;

const measure = (before: string): [number, number] =>
  JSON.parse(
    execFileSync(process.execPath, ['--input-type=module', '--eval', before + work], { encoding: 'utf8' }),
  );

// Fragile by its nature: it reads what V8 calls its spaces and how large it makes them, and another V8 may do
// otherwise. When it falls after a change of Node or Electron, measure the service's memory
// (tests/bench/memory.ts) before anything else.
it('keeps the space of new objects at its first size, and the heap below what V8 would take', () => {
  const [usual, usualHeap] = measure('');
  const [small, smallTotal] = measure(`import ${JSON.stringify(smallHeap)};`);
  expect(small).toBeLessThan(6e6);
  expect(usual).toBeGreaterThan(4 * small);
  expect(smallTotal).toBeLessThan(usualHeap);
});
