/**
 * What the procedures answer with: plain, serialisable shapes that the screens draw and the
 * command line prints.
 */

export type { IsoDate } from '../../valuation/index.ts';
export type { CarPatch, PaperRequest, ReportRequest, SalePatch, SaleWindow } from './inputs.ts';
export type * from './views/beliefs.ts';
export type * from './views/cars.ts';
export type * from './views/collection.ts';
export type * from './views/decide.ts';
export type * from './views/files.ts';
export type * from './views/names.ts';
export type * from './views/reference.ts';
export type * from './views/sale-lines.ts';
export type * from './views/shared.ts';
export type * from './views/windows.ts';
export type * from './views/words.ts';
export type * from './views/work.ts';
export type * from './views/worth.ts';
export type * from './views/young.ts';
