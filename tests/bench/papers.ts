/**
 * The papers that grow with the collection, of 5,000 cars: what each takes and what memory it needs, in a
 * process of its own; and whether each inventory number and the exact totals are in it and nothing runs off its pages.
 * `node tests/bench/papers.ts [cars]`
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { runBulk } from '../../db/history/history.ts';
import { makeLargeCollection } from '../helpers/large-collection.ts';
import { measured } from './measure.ts';
import { serviceOn } from './service-on.ts';

const at = '2026-03-14T10:00:00.000Z';
const kinds = ['worksheet', 'ledger', 'want-list', 'labels'] as const;
type Kind = (typeof kinds)[number];

/** An expense of each car, of 1.00, 1.01, 1.02 and so on, so that the sum is told by their number. */
const spentOn = (i: number): number => 100 + i;
const numberOf = (i: number): string => `Q-${String(i + 1).padStart(6, '0')}`;

const fill = async (dir: string, cars: number): Promise<void> => {
  const collection = await makeLargeCollection(dir, cars);
  const { sqlite } = collection.write;
  await runBulk(collection, 'Spent on each car', at, async () => {
    const insert = sqlite.prepare(
      "INSERT INTO expense (car_id, spent_on, what, minor, currency) SELECT id, '2026-01-05', ?, ?, 'USD' FROM car WHERE inventory_number = ?",
    );
    for (let i = 0; i < cars; i++) insert.run('axles', spentOn(i), numberOf(i));
    // Castings that nobody has, so that the list of what is wanted is as long.
    const casting = sqlite.prepare('INSERT INTO casting (series_id, name, first_year) VALUES (1, ?, 1970)');
    for (let i = 0; i < cars; i++) casting.run(`Wanted ${numberOf(i)}`);
  });
  await collection.close({ at });
};

/** Makes one paper, writes it to a file and prints how long it took, its pages, and the most memory there was. */
const make = async (dir: string, kind: Kind, out: string) => {
  const { session, api } = serviceOn(dir);
  await api.collection.open({ dir });
  const before = process.cpuUsage();
  const stream = kind === 'labels' ? await api.papers.labels({}) : await api.papers.make({ kind });
  for await (const step of stream)
    if (step.type === 'done') {
      const file = await api.reports.file({ token: step.result.token });
      writeFileSync(out, Buffer.from(await file.arrayBuffer()));
      const { user, system } = process.cpuUsage(before);
      const most = process.resourceUsage().maxRSS / 1000;
      console.log(JSON.stringify({ seconds: (user + system) / 1e6, pages: step.result.pages, most }));
    }
  await session.close();
};

/** True where the outermost three millimetres of some pages, to the last one, are bare. */
const edgesAreBare = async (folder: string, pdf: string, pages: number): Promise<boolean> => {
  for (const page of [2, Math.ceil(pages / 2), pages].filter(number => number >= 1 && number <= pages)) {
    const name = `page-${page}`;
    const range = ['-f', String(page), '-l', String(page), '-singlefile'];
    execFileSync('pdftoppm', [...range, '-r', '50', '-gray', '-png', pdf, join(folder, name)]);
    const image = sharp(join(folder, `${name}.png`)).greyscale();
    const { data, info } = await image.raw().toBuffer({ resolveWithObject: true });
    const edge = Math.floor((3 / 25.4) * 50);
    for (let y = 0; y < info.height; y++)
      for (let x = 0; x < info.width; x++) {
        const isInside = x >= edge && y >= edge && x < info.width - edge && y < info.height - edge;
        if (!isInside && data[y * info.width + x]! < 250) return false;
      }
  }
  return true;
};

/** What is missing in a paper that was made, in words; nothing where it is whole. */
const faultsOf = async (kind: Kind, folder: string, pdf: string, cars: number, pages: number) => {
  const text = execFileSync('pdftotext', ['-raw', pdf, '-'], { encoding: 'utf8', maxBuffer: 1e9 });
  const said = new Set(text.match(/Q-\d{6}/g));
  const missing = Array.from({ length: cars }, (_, i) => numberOf(i)).filter(number => !said.has(number));
  const total = Array.from({ length: cars }, (_, i) => spentOn(i)).reduce((sum, minor) => sum + minor, 0);
  const totalText = (total / 100).toLocaleString('en-US', { minimumFractionDigits: 2 });
  return [
    missing.length > 0 && `${missing.length} numbers are not in it, the first ${missing[0]}`,
    kind === 'ledger' && !text.includes(`USD ${totalText}`) && `the total ${totalText} is not in it`,
    kind !== 'labels' && !(await edgesAreBare(folder, pdf, pages)) && 'something runs off a page',
  ].filter(Boolean);
};

if (process.argv[2] === 'make') await make(process.argv[3]!, process.argv[4] as Kind, process.argv[5]!);
else {
  const cars = Number(process.argv[2] ?? 5000);
  const folder = mkdtempSync(join(tmpdir(), 'playworn-bench-'));
  try {
    const dir = join(folder, 'collection');
    await fill(dir, cars);
    for (const kind of kinds) {
      const pdf = join(folder, `${kind}.pdf`);
      const told = execFileSync(process.execPath, [fileURLToPath(import.meta.url), 'make', dir, kind, pdf], {
        encoding: 'utf8',
      });
      const { seconds, pages, most } = JSON.parse(told.trim().split('\n').at(-1)!);
      const work = `${kind} of ${cars} cars, ${pages} pages`;
      measured({ work, value: seconds, unit: 's', goal: null });
      measured({ work: `memory, ${work}`, value: most, unit: 'MB', goal: 1000 });
      for (const fault of await faultsOf(kind, folder, pdf, cars, pages)) {
        console.log(`${kind}: ${fault}`);
        process.exitCode = 1;
      }
      for (const name of readdirSync(folder).filter(entry => entry.endsWith('.png')))
        rmSync(join(folder, name));
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
