export interface KeyPress {
  key: string;
  ctrlKey: boolean;
  metaKey: boolean;
  shiftKey: boolean;
  altKey: boolean;
}

/** The platform's main modifier: ⌘ on a Mac, Ctrl elsewhere. */
export const isMac = (platform: string): boolean => /mac|iphone|ipad/i.test(platform);

/**
 * True when a press is the one that `keys` names: "mod+K", "mod+shift+Z", "alt+1", "?", "F2", "Escape".
 * Characters that need Shift on some keyboards ("?", "/") are matched by what they write.
 */
export const matchesKeys = (keys: string, press: KeyPress, mac: boolean): boolean => {
  const parts = keys.split('+').map(part => part.toLowerCase());
  const key = parts.pop() ?? '';
  const mod = parts.includes('mod');
  const written = key.length === 1 && !/[a-z0-9]/.test(key);
  if (press.key.toLowerCase() !== key) return false;
  if (press.ctrlKey !== (mod && !mac)) return false;
  if (press.metaKey !== (mod && mac)) return false;
  if (press.altKey !== parts.includes('alt')) return false;
  return written || press.shiftKey === parts.includes('shift');
};

/** How keys are written on their caps: "Ctrl K", "⌘ K", "⇧". */
export const keyCaps = (keys: string, mac: boolean): string[] => {
  const names: Record<string, string> = mac
    ? { mod: '⌘', shift: '⇧', alt: '⌥' }
    : { mod: 'Ctrl', shift: 'Shift', alt: 'Alt' };
  const signs: Record<string, string> = {
    arrowup: '↑',
    arrowdown: '↓',
    arrowleft: '←',
    arrowright: '→',
    enter: 'Enter',
    escape: 'Esc',
    pageup: 'Page Up',
    pagedown: 'Page Down',
  };
  return keys.split('+').map(part => {
    const lower = part.toLowerCase();
    return names[lower] ?? signs[lower] ?? (part.length === 1 ? part.toUpperCase() : part);
  });
};

/** True for keys that a text field needs for itself: they reach the screen only from elsewhere. */
export const isTyping = (press: KeyPress): boolean =>
  !press.ctrlKey && !press.metaKey && !press.altKey && !/^(F\d+|Escape)$/.test(press.key);
