import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepPlace, placeFrom, readPlace, smallestWindow } from '../../../electron/main/window-place.ts';

const screen = { x: 0, y: 0, width: 1920, height: 1080 };
const second = { x: 1920, y: 0, width: 2560, height: 1440 };
const kept = { x: 100, y: 80, width: 1400, height: 800, maximised: false };
const first = { width: 1440, height: 900, maximised: false };

describe('the place of the window', () => {
  it('is the one that was kept', () => {
    expect(placeFrom(JSON.stringify(kept), [screen])).toEqual(kept);
    expect(placeFrom(JSON.stringify({ ...kept, x: 2200, maximised: true }), [screen, second])).toEqual({
      ...kept,
      x: 2200,
      maximised: true,
    });
  });
  it('is left to the system where it lay on a screen that is gone', () => {
    const { width, height, maximised } = kept;
    for (const x of [2200, -1350, 1850])
      expect(placeFrom(JSON.stringify({ ...kept, x }), [screen]), String(x)).toEqual({
        width,
        height,
        maximised,
      });
    for (const y of [-20, 1060])
      expect(placeFrom(JSON.stringify({ ...kept, y }), [screen]), String(y)).toEqual({
        width,
        height,
        maximised,
      });
  });
  it('is never smaller than the screens can bear', () => {
    expect(placeFrom(JSON.stringify({ ...kept, width: 10, height: 10 }), [screen])).toMatchObject(
      smallestWindow,
    );
  });
  it('is the first one where nothing sensible was kept', () => {
    for (const text of [null, '', '{', '[]', 'null', '7', '{"width":"1400","height":800}', '{"width":1e400}'])
      expect(placeFrom(text, [screen])).toEqual(first);
  });
  it('can always be reached', () => {
    const whole = fc.integer({ min: -10_000, max: 10_000 });
    fc.assert(
      fc.property(fc.record({ x: whole, y: whole, width: whole, height: whole }), at => {
        const place = placeFrom(JSON.stringify({ ...at, maximised: false }), [screen, second]);
        if (place.x === undefined || place.y === undefined) return;
        const on = [screen, second].some(
          area =>
            place.x! < area.x + area.width &&
            place.x! + place.width > area.x &&
            place.y! >= area.y &&
            place.y! < area.y + area.height,
        );
        expect(on).toBe(true);
      }),
    );
  });
});

describe('the kept place', () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'place-'));
  });
  afterAll(() => rmSync(folder, { recursive: true }));
  it('comes back from its file', () => {
    const file = join(folder, 'new', 'window.json');
    expect(readPlace(file, [screen])).toEqual(first);
    keepPlace(file, kept);
    expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(kept);
    expect(readPlace(file, [screen])).toEqual(kept);
  });
  it('is not worth an error', () => {
    const file = join(folder, 'file');
    writeFileSync(file, '');
    expect(() => keepPlace(join(file, 'window.json'), kept)).not.toThrow();
  });
});
