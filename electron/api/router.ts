import { archive } from './archive/archive.ts';
import { cars } from './cars/cars.ts';
import { photos } from './cars/photos.ts';
import { collection } from './collection/collection.ts';
import { decisions } from './decisions/decisions.ts';
import { exports } from './exports/exports.ts';
import { gallery } from './gallery/gallery.ts';
import { imports } from './imports/imports.ts';
import { castingSets } from './lists/casting-sets.ts';
import { savedViews } from './lists/saved-views.ts';
import { lots } from './lots/lots.ts';
import { names } from './names/names.ts';
import { papers } from './papers/papers.ts';
import { reference } from './reference/reference.ts';
import { reportDefinitions } from './reports/definitions.ts';
import { reports } from './reports/reports.ts';
import { sales } from './sales/sales.ts';
import { words } from './words/words.ts';
import { bench } from './work/bench.ts';
import { plans } from './work/plans.ts';
import { work } from './work/work.ts';
import { beliefs } from './worth/beliefs.ts';
import { worth } from './worth/worth.ts';
import { young } from './young/young.ts';

/** Every procedure, by subject. One router serves the window, the browser and the command line. */
export const router = {
  collection,
  lots,
  cars,
  photos,
  reference,
  names,
  sales,
  worth,
  work,
  plans,
  bench,
  beliefs,
  decisions,
  imports,
  words,
  reports: { ...reports, ...reportDefinitions },
  exports,
  papers,
  gallery,
  archive,
  savedViews,
  castingSets,
  young,
};

export type AppRouter = typeof router;
