import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { amber, brick, petrol, tokens } from '../../../renderer/theme/colours.ts';

const luminance = (hex: string): number => {
  const channel = (at: number) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
};

/**
 * Contrast ratio as WCAG 2.2 defines it (read in the recommendation: relative luminance, (L1 +
 * 0.05) / (L2 + 0.05)).
 */
const contrast = (a: string, b: string): number => {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (light + 0.05) / (dark + 0.05);
};

describe.each(['light', 'dark'] as const)('the %s scheme', scheme => {
  const palette = tokens[scheme];

  it.each([
    'ink',
    'ink-soft',
    'accent',
    'caution',
    'harm',
    'worth-found',
    'worth-restored',
    'worth-original',
  ] as const)('%s can be read on every surface', text => {
    for (const ground of ['page', 'raised', 'sunken'] as const)
      expect(contrast(palette[text], palette[ground])).toBeGreaterThanOrEqual(4.5);
  });

  it.each(['accent', 'caution', 'harm'] as const)('%s and ink can be read on its wash', tone => {
    expect(contrast(palette[tone], palette[`${tone}-wash`])).toBeGreaterThanOrEqual(4.5);
    expect(contrast(palette.ink, palette[`${tone}-wash`])).toBeGreaterThanOrEqual(4.5);
    expect(contrast(palette['ink-soft'], palette[`${tone}-wash`])).toBeGreaterThanOrEqual(4.5);
  });

  it('edges of controls stand out from the page', () => {
    expect(contrast(palette.control, palette.page)).toBeGreaterThanOrEqual(3);
  });

  it('is what the style sheet declares', () => {
    const css = readFileSync(new URL('../../../renderer/theme/tokens.css', import.meta.url), 'utf8');
    const block = css.split(/^:root/m).find(part => part.includes(`color-scheme: ${scheme}`)) ?? '';
    const declared = Object.fromEntries(
      [...block.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(([, name, hex]) => [name, hex]),
    );
    expect(declared).toEqual(palette);
  });
});

describe('filled buttons', () => {
  it.each([
    ['petrol', petrol],
    ['brick', brick],
    ['amber', amber],
  ])('of %s can be read in both schemes', (_, shades) => {
    for (const shade of [6, 7]) expect(contrast('#fdfcf9', shades[shade] ?? '')).toBeGreaterThanOrEqual(4.5);
  });
});
