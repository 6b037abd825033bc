import { cp, mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { createReportPdf } from '../../reports/typesetting/pdf.ts';
import { checkoutAssets } from '../../reports/typesetting/report-assets.ts';
import type { ReportProgress } from '../../reports/typesetting/worker-messages.ts';
import { plainEntry, sampleEntry, sampleReport } from './sample-report.ts';

const manyCars = (count: number) => sampleReport(Array.from({ length: count }, (_, i) => sampleEntry(i)));

describe('the report\u2019s worker', () => {
  it('tells how far it is', async () => {
    const seen: ReportProgress[] = [];
    const photos = ['/absent/1.jpg', '/absent/2.jpg'].map(path => ({ path, alt: '' }));
    await createReportPdf(sampleReport([plainEntry({ photos })]), {
      onProgress: progress => seen.push(progress),
    });
    expect(seen).toEqual([
      // The first once more, in the size of the cover.
      { stage: 'photographs', done: 1, total: 3 },
      { stage: 'photographs', done: 2, total: 3 },
      { stage: 'photographs', done: 3, total: 3 },
      { stage: 'typesetting', done: 0, total: 1 },
    ]);
  });

  it('leaves the caller\u2019s thread free while it sets hundreds of cars', async () => {
    const report = manyCars(400);
    const before = { thread: process.threadCpuUsage(), all: process.cpuUsage() };
    const { pages } = await createReportPdf(report);
    const spent = (usage: { user: number; system: number }): number => usage.user + usage.system;
    const thread = spent(process.threadCpuUsage(before.thread));
    const all = spent(process.cpuUsage(before.all));
    expect(pages).toBeGreaterThan(100);
    expect(thread).toBeLessThan(all / 10);
  });

  it('can be cancelled while it sets: the promise ends at once with the given reason', async () => {
    const cancelled = new AbortController();
    const reason = new Error('the owner changed their mind');
    let cancelledAt = 0;
    const making = createReportPdf(manyCars(1500), {
      signal: cancelled.signal,
      onProgress: ({ stage }) => {
        if (stage !== 'typesetting') return;
        setTimeout(() => {
          cancelledAt = performance.now();
          cancelled.abort(reason);
        }, 50);
      },
    });
    await expect(making).rejects.toBe(reason);
    expect(performance.now() - cancelledAt).toBeLessThan(500);
  });

  it('is not even started when cancelled before', async () => {
    await expect(createReportPdf(manyCars(1), { signal: AbortSignal.abort() })).rejects.toThrow(/abort/i);
  });

  it('hands its errors back: a template that fails, assets or a worker that are not there', async () => {
    const report = manyCars(1);
    const assets = checkoutAssets();
    await expect(createReportPdf(report, { assets: { ...assets, templates: '/absent' } })).rejects.toThrow(
      /absent/,
    );
    await expect(createReportPdf(report, { worker: new URL('file:///absent/worker.js') })).rejects.toThrow(
      /absent/,
    );
    const broken = new URL('./broken-template', import.meta.url);
    await expect(
      createReportPdf(report, { assets: { ...assets, templates: broken.pathname } }),
    ).rejects.toThrow(/could not be set.*nowhere-defined/s);
  });

  it('finds templates and fonts wherever a bundle puts them', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'playworn-assets-'));
    const assets = checkoutAssets();
    await cp(assets.templates, join(folder, 'templates'), { recursive: true });
    await mkdir(join(folder, 'fonts'));
    for (const font of assets.fonts) await cp(font, join(folder, 'fonts', basename(font)));
    const placed = { templates: join(folder, 'templates'), fonts: [join(folder, 'fonts')] };
    const report = manyCars(2);
    const { pdf } = await createReportPdf(report, { assets: placed });
    expect(Buffer.compare(pdf, (await createReportPdf(report)).pdf)).toBe(0);
    await rm(folder, { recursive: true });
  });

  it('refuses unsound figures before it starts', async () => {
    await expect(createReportPdf(sampleReport([plainEntry({ grade: 11 })]))).rejects.toThrow(RangeError);
  });
});
