import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A value of qpdf's JSON: references are "12 0 R", names begin with a slash, texts with "u:" or "b:". */
export type Json = string | number | boolean | null | Json[] | { [key: string]: Json };
export type Dictionary = { [key: string]: Json };
export interface PdfObjects {
  header: string;
  objects: Record<string, { value?: Json; stream?: { dict: Dictionary; data?: string } }>;
}

/** The objects of a PDF, read by qpdf, which had no part in writing it; streams in base64, as they are or decoded. */
export const readObjects = (pdf: Uint8Array, decoded: 'none' | 'generalized' = 'none'): PdfObjects => {
  const folder = mkdtempSync(join(tmpdir(), 'playworn-objects-'));
  try {
    const file = join(folder, 'paper.pdf');
    writeFileSync(file, pdf);
    const json = JSON.parse(
      execFileSync(
        'qpdf',
        ['--json=2', '--json-key=qpdf', '--json-stream-data=inline', `--decode-level=${decoded}`, file],
        { encoding: 'utf8', maxBuffer: 2e9, stdio: ['ignore', 'pipe', 'ignore'] },
      ),
    );
    return { header: Buffer.from(pdf.subarray(0, 20)).toString('latin1'), objects: json.qpdf[1] };
  } finally {
    rmSync(folder, { recursive: true });
  }
};

export const isDictionary = (value: Json | undefined): value is Dictionary =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What stands singly or in an array. */
export const listOf = (value: Json | undefined): Json[] =>
  value === undefined || value === null ? [] : Array.isArray(value) ? value : [value];
