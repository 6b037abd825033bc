/**
 * How long a report of 5,000 cars with photographs takes, against a bare Typst document with as many rows and
 * the same photographs. Prints; the ratio is to compare machines and versions by.
 * `npx node tests/bench/report.ts [cars]`
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler';
import sharp from 'sharp';
import { createReportPdf } from '../../reports/pdf.ts';
import { printPhotos } from '../../reports/photos.ts';
import { checkoutAssets, readAssets } from '../../reports/report-assets.ts';
import { sampleCarSvg } from '../helpers/sample-photos.ts';
import { sampleColours, sampleEntry, sampleReport } from '../reports/sample-report.ts';
import { measured } from './measure.ts';

const cars = Number(process.argv[2] ?? 5000);
const drawings = 60;
const seconds = (since: number): number => (performance.now() - since) / 1000;
/** Processor time is what a loaded machine does not distort. */
const processor = (): number => process.cpuUsage().user / 1e6;
const megabytes = (bytes: number): string => `${(bytes / 1e6).toFixed(0)} MB`;

const folder = await mkdtemp(join(tmpdir(), 'playworn-bench-'));
const drawn: Buffer[] = [];
for (let i = 0; i < drawings; i += 1) {
  const swatch = sampleColours[i % sampleColours.length]![1];
  drawn.push(
    await sharp(Buffer.from(sampleCarSvg(swatch, i, 2 + (i % 15) / 2, i)))
      .resize(1400)
      .removeAlpha()
      .raw()
      .toBuffer(),
  );
}
// A few pixels of each differ, so that no two photographs are the same and each is prepared and
// embedded by itself.
const paths: string[] = [];
for (let i = 0; i < cars; i += 1) {
  const pixels = drawn[i % drawings]!;
  pixels.fill(i % 256, 0, 3000 + (i % 997));
  paths.push(join(folder, `${i}.jpg`));
  const height = pixels.length / 1400 / 3;
  await sharp(pixels, { raw: { width: 1400, height, channels: 3 } })
    .jpeg({ quality: 85 })
    .toFile(paths[i]!);
}

// Every file is prepared again, so that both documents hold as many photographs as cars.
let started = performance.now();
const { ready } = await printPhotos(paths, 320, () => {});
const photoSeconds = seconds(started);

const bare = `#set page(paper: "a4")
#set text(font: "Source Sans 3", size: 9pt)
#set document(date: auto)
#for row in json("/rows.json") {
  grid(columns: (32mm, 1fr, 3cm), image(row.photo, alt: row.name, width: 32mm), [#row.number #row.name], row.amount)
}`;
const { fonts } = await readAssets(checkoutAssets());
const compiler = NodeCompiler.create({ workspace: '/bare', fontArgs: [{ fontBlobs: fonts }] });
compiler.addSource('/bare/main.typ', bare);
const rows = paths.map((path, i) => {
  compiler.mapShadow(`/bare/${i}.jpg`, ready.get(path)!);
  return { photo: `/${i}.jpg`, number: `Q-${i}`, name: 'Wrenmoor Lintel', amount: '120.00' };
});
compiler.mapShadow('/bare/rows.json', Buffer.from(JSON.stringify(rows)));
started = performance.now();
let processorFrom = processor();
const compiled = compiler.compile({ mainFilePath: '/bare/main.typ' });
if (!compiled.result) throw new Error('The bare document could not be set');
const barePdf = compiler.pdf(compiled.result, { pdfStandard: 'a-2a', creationTimestamp: 1 });
const bareSeconds = seconds(started);
const bareProcessor = processor() - processorFrom;
const barePages = compiled.result.numOfPages;
compiler.resetShadow();
compiler.evictCache(0);

const entries = paths.map((path, i) => sampleEntry(i, [{ path, alt: `Side view of car ${i}` }]));
const delay = monitorEventLoopDelay({ resolution: 10 });
let typesettingFrom = 0;
started = performance.now();
const making = createReportPdf(sampleReport(entries), {
  onProgress: ({ stage }) => {
    if (stage !== 'typesetting') return;
    typesettingFrom = performance.now();
    processorFrom = processor();
  },
});
delay.enable();
const report = await making;
delay.disable();
const reportSeconds = seconds(started);
const typesettingSeconds = seconds(typesettingFrom);
const typesettingProcessor = processor() - processorFrom;

console.log(`photographs      ${cars} in ${photoSeconds.toFixed(1)} s`);
console.log(
  `bare Typst       ${cars} rows, ${barePages} pages, ${bareSeconds.toFixed(1)} s, ${megabytes(barePdf.length)}`,
);
console.log(
  `report           ${cars} cars, ${report.pages} pages, ${reportSeconds.toFixed(1)} s of which typesetting ${typesettingSeconds.toFixed(1)} s, ${megabytes(report.pdf.length)}, ${report.standard}`,
);
console.log(
  `ratio            ${(typesettingProcessor / bareProcessor).toFixed(2)} × bare Typst in processor time (${typesettingProcessor.toFixed(1)} s to ${bareProcessor.toFixed(1)} s)`,
);
console.log(
  `caller's thread  longest wait ${(delay.max / 1e6).toFixed(0)} ms, 99 % under ${(delay.percentile(99) / 1e6).toFixed(0)} ms`,
);
console.log(`resident memory  ${megabytes(process.resourceUsage().maxRSS * 1000)} at most`);
measured({
  work: `a report of ${cars} cars with photographs, typesetting`,
  value: typesettingProcessor,
  unit: 's',
  beside: { what: 'bare Typst', value: bareProcessor },
  goal: 1.5,
  goalOf: 'ratio',
});
measured({
  work: `memory, a report of ${cars} cars with photographs`,
  value: process.resourceUsage().maxRSS / 1000,
  unit: 'MB',
  goal: null,
});
await rm(folder, { recursive: true });
