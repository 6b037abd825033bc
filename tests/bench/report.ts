/**
 * How long a report of 5,000 cars with photographs takes and what memory it needs, against two bare Typst
 * documents with the same photographs: a line for each car, and all the words that the report has of each
 * car, which fill about as many pages. `node tests/bench/report.ts [cars]`
 */
import { fork } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import sharp from 'sharp';
import type { EntryModel } from '../../reports/model/entry-model.ts';
import { reportModel } from '../../reports/model/report-model.ts';
import { createReportPdf } from '../../reports/typesetting/pdf.ts';
import { printPhoto } from '../../reports/typesetting/photos.ts';
import { sampleCarSvg } from '../helpers/pictures/sample-photos.ts';
import { sampleColours, sampleEntry, sampleReport } from '../reports/sample-report.ts';
import type { Bare } from './bare-typst.ts';
import { measured, timed } from './measure.ts';

const cars = Number(process.argv[2] ?? 5000);
const drawings = 60;
const folder = await mkdtemp(join(tmpdir(), 'playworn-bench-'));

/** Photographs as large as the copies that screens show, no two the same. */
const drawPhotographs = async (): Promise<string[]> => {
  const drawn: Buffer[] = [];
  for (let i = 0; i < drawings; i += 1) {
    const swatch = sampleColours[i % sampleColours.length]![1];
    const svg = sampleCarSvg(swatch, i, 2 + (i % 15) / 2, i);
    drawn.push(await sharp(Buffer.from(svg)).resize(1280).removeAlpha().raw().toBuffer());
  }
  const paths: string[] = [];
  for (let i = 0; i < cars; i += 1) {
    const pixels = drawn[i % drawings]!;
    pixels.fill(i % 256, 0, 3000 + (i % 997));
    const height = pixels.length / 1280 / 3;
    const path = join(folder, `${i}.jpg`);
    await sharp(pixels, { raw: { width: 1280, height, channels: 3 } })
      .jpeg({ quality: 85 })
      .toFile(path);
    paths.push(path);
  }
  return paths;
};

const bareTypst = async (row: string, rows: { words: string; number: string; photo: string }[]) => {
  const file = join(folder, 'bare.json');
  await writeFile(file, JSON.stringify({ row, rows }));
  return new Promise<Bare>((resolve, reject) => {
    const child = fork(join(import.meta.dirname, 'bare-typst.ts'), [file]);
    child.on('message', message => resolve(message as Bare));
    child.on('exit', code => reject(new Error(`Bare Typst ended with ${code}`)));
  });
};

/** All words that the long report has of a car. */
const wordsOf = (entry: EntryModel): string =>
  [
    entry.finish,
    entry.grade,
    entry.finishStatement,
    entry.maker,
    entry.release,
    ...[...entry.facts, ...entry.lines, ...entry.whereabouts].flat(),
    ...entry.parts.flatMap(({ part, grade, originality }) => [part, grade, originality]),
    entry.partsSentence,
    entry.worthNotes,
    entry.evidence,
    entry.notes,
    ...entry.rows.flatMap(({ label, figures, note }) => [
      label,
      ...(figures ? Object.values(figures) : [note]),
    ]),
  ].join(' ');

const paths = await drawPhotographs();
const entries = paths.map((path, i) => sampleEntry(i, [{ path, alt: `Side view of car ${i}` }]));
const layout = { paper: 'a4', withPhotographs: true, compact: true } as const;

// As small as they are printed: preparing them is no part of typesetting.
const printed: string[] = [];
const { ms: photographs } = await timed(async () => {
  for (const [i, path] of paths.entries()) {
    printed.push(join(folder, `printed-${i}.jpg`));
    await writeFile(printed[i]!, await printPhoto(path, 320));
  }
});
const models = reportModel(sampleReport(entries), layout, () => null).groups.flatMap(group => group.entries);
const rows = models.map((entry, i) => ({ words: wordsOf(entry), number: entry.number, photo: printed[i]! }));
const image = 'image("/" + str(i) + ".jpg", alt: it.number, width: 32mm)';
const oneLine = await bareTypst(`grid(columns: (32mm, 1fr, 3cm), ${image}, it.number, [120.00])`, rows);
const allWords = await bareTypst(
  `block(breakable: false, stack(dir: ltr, spacing: 10pt, block(width: 32mm, ${image}), block(width: 8.5cm, { heading(it.number); it.words })))`,
  rows,
);

const delay = monitorEventLoopDelay({ resolution: 10 });
delay.enable();
const { result: report, ms } = await timed(() =>
  createReportPdf(sampleReport(entries), { density: 'compact' }),
);
delay.disable();
const typesetting = (ms - photographs) / 1000;

console.log(`photographs      ${cars} in ${(photographs / 1000).toFixed(1)} s`);
for (const [what, { pages, seconds, bytes, megabytes }] of [
  ['a line a car    ', oneLine],
  ['all words       ', allWords],
] as const)
  console.log(
    `${what} ${pages} pages, ${seconds.toFixed(1)} s, ${(bytes / 1e6).toFixed(0)} MB, ${megabytes.toFixed(0)} MB resident`,
  );
console.log(
  `report           ${report.pages} pages, ${(ms / 1000).toFixed(1)} s with photographs, ${(report.pdf.length / 1e6).toFixed(0)} MB, ${report.standard}`,
);
console.log(`caller's thread  longest wait ${(delay.max / 1e6).toFixed(0)} ms`);
const work = `a report of ${cars} cars with photographs, typesetting`;
measured({
  work: `${work}, pages as full`,
  value: typesetting,
  unit: 's',
  beside: { what: 'bare Typst of all its words', value: allWords.seconds },
  goal: 1.5,
  goalOf: 'ratio',
});
measured({
  work,
  value: typesetting,
  unit: 's',
  beside: { what: 'bare Typst of a line a car', value: oneLine.seconds },
  goal: null,
});
// The cars themselves and the file grow with their number; what is set at a time does not.
measured({
  work: `memory, a report of ${cars} cars with photographs`,
  value: process.resourceUsage().maxRSS / 1000,
  unit: 'MB',
  beside: { what: 'bare Typst of all its words', value: allWords.megabytes },
  goal: 1000,
});
await rm(folder, { recursive: true });
