/** Text that is markup already. */
export interface Markup {
  markup: string;
}

type Part = string | number | null | Markup | readonly Markup[];

const escapes: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

// biome-ignore lint/suspicious/noControlCharactersInRegex: characters that HTML has no place for
const unprintable = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/g;

const written = (part: Part): string => {
  if (part === null) return '';
  if (typeof part === 'string' || typeof part === 'number')
    return String(part)
      .replace(unprintable, '')
      .replace(/[&<>"']/g, sign => escapes[sign]!);
  return 'markup' in part ? part.markup : part.map(({ markup }) => markup).join('\n');
};

/** HTML from a template: whatever is put in is text, unless it came from this function. */
export const html = (pieces: TemplateStringsArray, ...parts: Part[]): Markup => ({
  markup: pieces.reduce((whole, piece, i) => whole + written(parts[i - 1] ?? null) + piece),
});
