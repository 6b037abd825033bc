import { z } from 'zod';
import { currency, isoDate, line } from '../fields.ts';
import { folderInput } from '../folder-input.ts';

export const createCollection = z.object({
  dir: folderInput.optional(),
  reportingCurrency: currency.default('USD'),
  owner: line.default(''),
});
export const openCollection = z.object({ dir: folderInput });
export const saveSettings = z.object({
  owner: line.optional(),
  name: line.optional(),
  reportingCurrency: currency.optional(),
});
export const saveRate = z.object({
  currency,
  on: isoDate,
  rate: z.string().regex(/^\d+(\.\d{1,9})?$/, 'a rate is a number such as 1.2735'),
});

/** `dir` names a collection that is not open, such as one too damaged to be. */
export const listBackups = z.object({ dir: folderInput.optional() }).optional();
export const restoreBackup = z.object({
  name: z.string().min(1).max(200),
  dir: folderInput.optional(),
  /** Takes a backup whose database is sound in itself though its description is not. */
  unverified: z.boolean().default(false),
});

/** `dir` names the folder to look into; without it, the one that is open or could not be opened. */
export const surveyFolder = z.object({ dir: folderInput.optional() }).optional();
export const setAside = z.object({ dir: folderInput });
export const search = z.object({ text: z.string().max(200), limit: z.int().min(1).max(100).default(20) });
