import type { MantineColorsTuple } from '@mantine/core';

/** The palette, lightest to darkest: one accent for action, one for caution, one for harm. */
export const petrol: MantineColorsTuple = [
  '#e4f0f1',
  '#c8e1e4',
  '#9acad1',
  '#6cb4bf',
  '#459dab',
  '#298796',
  '#187383',
  '#0f5c6b',
  '#0b4c59',
  '#083c47',
];
export const amber: MantineColorsTuple = [
  '#faf1da',
  '#f4e3b8',
  '#ecd08a',
  '#e3bb5c',
  '#d3a23a',
  '#b98722',
  '#9a6c12',
  '#7f5509',
  '#6a4607',
  '#533704',
];
export const brick: MantineColorsTuple = [
  '#faebe7',
  '#f3d4cc',
  '#eab4a7',
  '#e39483',
  '#d4725f',
  '#bf5440',
  '#a8402d',
  '#943321',
  '#7b2819',
  '#631f13',
];
/** Warm neutrals: paper and what lies on it. */
export const paper: MantineColorsTuple = [
  '#fdfcf9',
  '#f7f5f0',
  '#efece4',
  '#e3dfd4',
  '#d3cec1',
  '#b3aea1',
  '#8b877c',
  '#66635b',
  '#494843',
  '#22262b',
];
/** Mantine's dark scale: text first, the page at seven. */
export const night: MantineColorsTuple = [
  '#e8e4da',
  '#c6c2b8',
  '#a9a59b',
  '#85827b',
  '#44474a',
  '#34373a',
  '#26292b',
  '#1b1d1f',
  '#151718',
  '#0f1011',
];

/**
 * The colours of text, surfaces and marks, per scheme; `tokens.css` declares the same values, and a
 * test compares them.
 */
export const tokens = {
  light: {
    page: '#f7f5f0',
    raised: '#fdfcf9',
    sunken: '#efece4',
    ink: '#22262b',
    'ink-soft': '#5a5d5e',
    hairline: '#dcd7cb',
    'hairline-strong': '#b3aea1',
    control: '#85817a',
    accent: '#0f5c6b',
    'accent-wash': '#e1ebea',
    caution: '#7f5509',
    'caution-wash': '#f6ecd2',
    harm: '#943321',
    'harm-wash': '#f7e5df',
    'worth-found': '#3d464e',
    'worth-restored': '#0f6f80',
    'worth-original': '#7a3b62',
  },
  dark: {
    page: '#1b1d1f',
    raised: '#232628',
    sunken: '#161819',
    ink: '#e8e4da',
    'ink-soft': '#a9a59b',
    hairline: '#34373a',
    'hairline-strong': '#5a5d60',
    control: '#7d7b76',
    accent: '#6cb9c4',
    'accent-wash': '#20353a',
    caution: '#e3b352',
    'caution-wash': '#352d1d',
    harm: '#ee9a87',
    'harm-wash': '#3a2622',
    'worth-found': '#c9c4b8',
    'worth-restored': '#52b4c4',
    'worth-original': '#dd9fc4',
  },
} as const;
