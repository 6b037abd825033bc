/**
 * Beyond so many characters no further page is prepared for looking at: what is saved is whole all the same.
 */
const mostCharacters = 120_000_000;

const symbolsOf = (defs: string): Map<string, string> =>
  new Map([...defs.matchAll(/<symbol id="([^"]+)"[\s\S]*?<\/symbol>/g)].map(([whole, id]) => [id!, whole]));

/** What stands directly within the drawing: each page's content, and what several pages draw with. */
const partsOf = (svg: string): { pages: string[]; shared: string[] } => {
  const pages: string[] = [];
  const shared: string[] = [];
  let open: string[] | null = null;
  for (const line of svg.split('\n')) {
    if (/^ {4}<(g|defs)[ >]/.test(line)) open = [];
    if (open) open.push(line);
    if (/^ {4}<g[^>]*\/>$/.test(line) || /^ {4}<\/g>$/.test(line)) {
      pages.push((open ?? []).join('\n'));
      open = null;
    } else if (/^ {4}<\/defs>$/.test(line) || /^ {4}<defs[^>]*\/>$/.test(line)) {
      shared.push((open ?? []).join('\n'));
      open = null;
    }
  }
  return { pages, shared };
};

/**
 * The pages of a document, each as an SVG picture of its own, from the one drawing in which Typst stacks
 * them. All pages of a document are of one size. Empty where the drawing does not hold as many pages as the
 * document: then there is nothing to look at, which is better than a wrong page. Long documents end early.
 */
export const previewPages = (svg: string, pageCount: number): string[] => {
  const box = /^<svg[^>]* viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg);
  const { pages, shared } = partsOf(svg);
  if (!box || pages.length !== pageCount) return [];
  const width = Number(box[1]);
  const height = Number(box[2]) / pageCount;
  const glyphs = shared.find(defs => /^ {4}<defs id="glyph"/.test(defs)) ?? '';
  const symbols = symbolsOf(glyphs);
  const others = shared.filter(defs => defs !== glyphs).join('\n');
  const drawn: string[] = [];
  let characters = 0;
  for (const [i, content] of pages.entries()) {
    const used = new Set([...content.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id!));
    const own = [...used].flatMap(id => symbols.get(id) ?? []).join('\n');
    const top = i * height;
    const page = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="${width}" height="${height}" viewBox="0 ${top} ${width} ${height}">
<rect x="0" y="${top}" width="${width}" height="${height}" fill="#fff"/>
${content}
<defs>${own}</defs>
${others}
</svg>`;
    characters += page.length;
    if (characters > mostCharacters) break;
    drawn.push(page);
  }
  return drawn;
};
