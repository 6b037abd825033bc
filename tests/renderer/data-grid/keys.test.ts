import { describe, expect, it } from 'vitest';
import { gridCommand } from '../../../renderer/components/data-grid/grid-keys.ts';
import { HeldPresses, mayWait, mostHeld } from '../../../renderer/components/keys/held-presses.ts';
import { isTyping, keyCaps, matchesKeys } from '../../../renderer/components/keys/key-match.ts';

const press = (
  key: string,
  held: Partial<Record<'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey', boolean>> = {},
) => ({
  key,
  ctrlKey: false,
  metaKey: false,
  shiftKey: false,
  altKey: false,
  ...held,
});

describe('keys', () => {
  it('mean Ctrl here and ⌘ on a Mac, and not each other', () => {
    expect(matchesKeys('mod+K', press('k', { ctrlKey: true }), false)).toBe(true);
    expect(matchesKeys('mod+K', press('k', { metaKey: true }), false)).toBe(false);
    expect(matchesKeys('mod+K', press('k', { metaKey: true }), true)).toBe(true);
    expect(matchesKeys('mod+shift+Z', press('Z', { ctrlKey: true, shiftKey: true }), false)).toBe(true);
    expect(matchesKeys('mod+Z', press('Z', { ctrlKey: true, shiftKey: true }), false)).toBe(false);
  });

  it('are matched by what they write where keyboards differ', () => {
    expect(matchesKeys('?', press('?', { shiftKey: true }), false)).toBe(true);
    expect(matchesKeys('/', press('/', { shiftKey: true }), false)).toBe(true);
    expect(matchesKeys('/', press('/', { ctrlKey: true }), false)).toBe(false);
  });

  it('that write belong to a field that is being typed in', () => {
    expect(isTyping(press('n'))).toBe(true);
    expect(isTyping(press('k', { ctrlKey: true }))).toBe(false);
    expect(isTyping(press('F2'))).toBe(false);
  });

  it('are written as on their caps', () => {
    expect(keyCaps('mod+shift+z', false)).toEqual(['Ctrl', 'Shift', 'Z']);
    expect(keyCaps('mod+K', true)).toEqual(['⌘', 'K']);
    expect(keyCaps('ArrowUp', false)).toEqual(['↑']);
  });
});

describe('keys in a grid', () => {
  it('move, select, jump', () => {
    expect(gridCommand(press('ArrowDown'))).toEqual({ do: 'move', step: 'down', extend: false });
    expect(gridCommand(press('ArrowDown', { shiftKey: true }))).toEqual({
      do: 'move',
      step: 'down',
      extend: true,
    });
    expect(gridCommand(press('ArrowDown', { ctrlKey: true }))).toEqual({
      do: 'move',
      step: 'bottom',
      extend: false,
    });
    expect(gridCommand(press('Home', { ctrlKey: true }))).toEqual({
      do: 'move',
      step: 'first',
      extend: false,
    });
  });

  it('begin to edit by what is typed', () => {
    expect(gridCommand(press('q'))).toEqual({ do: 'edit', text: 'q' });
    expect(gridCommand(press('é'))).toEqual({ do: 'edit', text: 'é' });
    expect(gridCommand(press('F2'))).toEqual({ do: 'edit', text: null });
    expect(gridCommand(press('?', { shiftKey: true }))).toBeNull();
  });

  it('leave the app its own', () => {
    for (const key of ['k', 'z', 'c', 'v']) expect(gridCommand(press(key, { ctrlKey: true }))).toBeNull();
    expect(gridCommand(press('1', { altKey: true }))).toBeNull();
    expect(gridCommand(press('F5'))).toBeNull();
  });
});

describe('presses that wait for a screen', () => {
  it('are a beginning and whole where there are too many, and come once, in their order', () => {
    const held = new HeldPresses<number>();
    const taken = Array.from({ length: mostHeld + 5 }, (_, index) => held.hold(index));
    expect(taken.lastIndexOf(true)).toBe(mostHeld - 1);
    expect(Array.from({ length: mostHeld + 1 }, () => held.next())).toEqual([
      ...Array.from({ length: mostHeld }, (_, index) => index),
      undefined,
    ]);
  });

  it('are neither those that erase or take back, nor the browser’s', () => {
    const control = { ctrlKey: true };
    for (const key of ['a', '?', ' ', 'F2', 'Enter', 'ArrowDown'])
      expect(mayWait(press(key), false)).toBe(true);
    for (const key of ['Delete', 'Backspace', 'F5', 'F12', 'Shift', 'Dead'])
      expect(mayWait(press(key), false)).toBe(false);
    for (const key of ['z', 'y', 'd', 'v', 'r', 'w', 't', 'Delete'])
      expect(mayWait(press(key, control), false)).toBe(false);
    expect(mayWait(press('2', { altKey: true }), false)).toBe(true);
    expect(mayWait(press('ArrowLeft', { altKey: true }), false)).toBe(false);
    expect(mayWait({ ...press('a'), repeat: true }, false)).toBe(false);
    expect([mayWait(press('Tab'), false), mayWait(press('Tab'), true)]).toEqual([false, true]);
  });
});
