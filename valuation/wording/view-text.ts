import { dialect } from './dialect.ts';

/** What a photograph shows, as it is stored, in the reader's words; what the owner has typed stays as it is. */
export const viewText = (view: string, locale: string): string => {
  if (view === 'near side') return dialect(locale).nearSide;
  return view === 'off side' ? dialect(locale).offSide : view;
};

/** A view in the reader's words, as it is stored. */
export const storedView = (text: string, locale: string): string =>
  ['near side', 'off side'].find(view => viewText(view, locale) === text) ?? text;
