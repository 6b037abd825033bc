/**
 * A bare Typst document in a process of its own: `node tests/bench/bare-typst.ts FILE`, whose JSON has `row`
 * (the source of one row) and `rows` (words, number and photograph of each). Sends what it took.
 */
import { readFileSync } from 'node:fs';
import { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler';
import { checkoutAssets, readAssets } from '../../reports/typesetting/report-assets.ts';
import { timed } from './measure.ts';

export interface Bare {
  /** Processor time, in seconds. */
  seconds: number;
  pages: number;
  bytes: number;
  /** Resident at most, in MB. */
  megabytes: number;
}

const { row, rows } = JSON.parse(readFileSync(process.argv[2]!, 'utf8')) as {
  row: string;
  rows: { words: string; number: string; photo: string }[];
};
const { fonts } = await readAssets(checkoutAssets());
const compiler = NodeCompiler.create({ workspace: '/bare', fontArgs: [{ fontBlobs: fonts }] });
compiler.addSource(
  '/bare/main.typ',
  `#set page(paper: "a4")
#set text(font: "Source Sans 3", size: 7.8pt)
#set document(date: auto)
#for (i, it) in json("/rows.json").enumerate() { ${row} }`,
);
for (const [i, { photo }] of rows.entries()) compiler.mapShadow(`/bare/${i}.jpg`, readFileSync(photo));
compiler.mapShadow('/bare/rows.json', Buffer.from(JSON.stringify(rows)));
const { result, ms } = await timed(() => {
  const compiled = compiler.compile({ mainFilePath: '/bare/main.typ' });
  if (!compiled.result) throw new Error('The bare document could not be set');
  const pdf = compiler.pdf(compiled.result, { pdfStandard: 'a-2a', creationTimestamp: 1 });
  return { pages: compiled.result.numOfPages, bytes: pdf.length };
});
const bare: Bare = {
  ...result,
  seconds: ms / 1000,
  megabytes: process.resourceUsage().maxRSS / 1000,
};
process.send?.(bare);
process.disconnect?.();
