import { type CSSVariablesResolver, createTheme } from '@mantine/core';
import { amber, brick, night, paper, petrol } from './colours.ts';

const oneRadius = { xs: '4px', sm: '4px', md: '4px', lg: '4px', xl: '4px' };
const overlayOnly = 'var(--overlay-shadow)';
/** What lies behind a dialog, dimmed. */
export const overlay = { color: '#1b1d1f', backgroundOpacity: 0.35, blur: 0 };
const raised = { content: { background: 'var(--raised)' }, header: { background: 'var(--raised)' } };
const small = { defaultProps: { size: 'xs' } };

/**
 * Fades in over a number of milliseconds and is gone at once: what fades out would hear the keys that are
 * pressed meanwhile, meant for what lies beneath.
 */
export const arrives = (duration: number) => ({ duration, exitDuration: 0 });

/**
 * The list of a menu takes the focus in the very task that draws it, so that the next key is its own; only
 * what is done at the end of that drawing, noting where the focus was, comes before. A trap for the focus takes
 * it later, from an item too that was gone to meanwhile.
 */
const takeFocus = (list: HTMLElement | null): void =>
  queueMicrotask(() => {
    if (list && !list.contains(document.activeElement)) list.focus({ preventScroll: true });
  });
/** The focus stays in a menu until something is chosen or Escape is pressed. */
const stayInside = (event: KeyboardEvent): void => {
  if (event.key === 'Tab') event.preventDefault();
};

/** Mantine dressed as the workbench: dense by default, one radius, shadows on overlays alone. */
export const theme = createTheme({
  colors: { petrol, amber, brick, gray: paper, dark: night },
  primaryColor: 'petrol',
  primaryShade: { light: 7, dark: 6 },
  white: '#fdfcf9',
  black: '#22262b',
  fontFamily: 'var(--font)',
  fontSizes: { xs: '0.8125rem', sm: '0.8125rem', md: '0.9375rem', lg: '1.125rem', xl: '1.5rem' },
  lineHeights: { xs: '1.4', sm: '1.4', md: '1.5', lg: '1.4', xl: '1.2' },
  spacing: { xs: '4px', sm: '8px', md: '12px', lg: '16px', xl: '24px' },
  radius: oneRadius,
  defaultRadius: 'md',
  shadows: { xs: 'none', sm: 'none', md: overlayOnly, lg: overlayOnly, xl: overlayOnly },
  headings: {
    fontFamily: 'var(--font)',
    fontWeight: '600',
    sizes: {
      h1: { fontSize: '1.5rem', lineHeight: '1.2' },
      h2: { fontSize: '1.125rem', lineHeight: '1.3' },
      h3: { fontSize: '0.9375rem', lineHeight: '1.4' },
    },
  },
  cursorType: 'pointer',
  focusRing: 'auto',
  respectReducedMotion: true,
  components: {
    Button: { defaultProps: { size: 'xs', variant: 'default' } },
    // What is said of a field stands clear of the ring around it.
    InputWrapper: { styles: { description: { marginBottom: 4 } } },
    ActionIcon: { defaultProps: { variant: 'subtle', color: 'gray', size: 30 } },
    TextInput: small,
    NumberInput: small,
    Textarea: small,
    Select: small,
    NativeSelect: small,
    MultiSelect: small,
    Autocomplete: small,
    DateInput: small,
    FileInput: small,
    SegmentedControl: small,
    Checkbox: small,
    Radio: small,
    Switch: small,
    Text: { defaultProps: { size: 'md' } },
    // A menu stands at once and fades in by its class: a transition draws it some frames after its key.
    Menu: {
      defaultProps: {
        shadow: 'md',
        transitionProps: arrives(0),
        trapFocus: false,
        withInitialFocusPlaceholder: false,
      },
      classNames: { dropdown: 'menu' },
    },
    MenuDropdown: { defaultProps: { ref: takeFocus, onKeyDown: stayInside } },
    Popover: { defaultProps: { shadow: 'md', transitionProps: arrives(100) } },
    Tooltip: { defaultProps: { transitionProps: arrives(80), openDelay: 250, withArrow: false } },
    // The page itself never scrolls, and locking it would write a style element of its own.
    Modal: {
      defaultProps: {
        shadow: 'md',
        transitionProps: arrives(120),
        centered: true,
        lockScroll: false,
        overlayProps: overlay,
        closeButtonProps: { 'aria-label': 'Close' },
      },
      styles: raised,
    },
    Drawer: {
      defaultProps: {
        shadow: 'md',
        transitionProps: arrives(140),
        lockScroll: false,
        overlayProps: overlay,
        closeButtonProps: { 'aria-label': 'Close' },
      },
      styles: raised,
    },
  },
});

const shared = {
  '--mantine-color-body': 'var(--page)',
  '--mantine-color-text': 'var(--ink)',
  '--mantine-color-bright': 'var(--ink)',
  '--mantine-color-dimmed': 'var(--ink-soft)',
  '--mantine-color-placeholder': 'var(--ink-soft)',
  '--mantine-color-anchor': 'var(--accent)',
  '--mantine-color-error': 'var(--harm)',
  '--mantine-color-default': 'var(--raised)',
  '--mantine-color-default-hover': 'var(--sunken)',
  '--mantine-color-default-color': 'var(--ink)',
  '--mantine-color-default-border': 'var(--hairline-strong)',
  '--mantine-color-disabled': 'var(--sunken)',
  '--mantine-color-disabled-color': 'var(--ink-soft)',
  '--mantine-color-disabled-border': 'var(--hairline)',
  '--mantine-color-gray-light-color': 'var(--ink)',
  '--mantine-color-gray-text': 'var(--ink-soft)',
  '--mantine-color-petrol-text': 'var(--accent)',
  '--mantine-color-petrol-light': 'var(--accent-wash)',
  '--mantine-color-petrol-light-hover': 'var(--accent-wash)',
  '--mantine-color-petrol-light-color': 'var(--accent)',
  '--mantine-color-amber-text': 'var(--caution)',
  '--mantine-color-amber-light': 'var(--caution-wash)',
  '--mantine-color-amber-light-hover': 'var(--caution-wash)',
  '--mantine-color-amber-light-color': 'var(--caution)',
  '--mantine-color-brick-text': 'var(--harm)',
  '--mantine-color-brick-light': 'var(--harm-wash)',
  '--mantine-color-brick-light-hover': 'var(--harm-wash)',
  '--mantine-color-brick-light-color': 'var(--harm)',
};

/** Points Mantine's own variables at the tokens, so that both schemes are declared in one place. */
export const themeVariables: CSSVariablesResolver = () => ({ variables: {}, light: shared, dark: shared });
