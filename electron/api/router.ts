import { collection } from './collection.ts';
import { reference } from './reference.ts';

/** Every procedure, by subject. One router serves the window, the browser and the command line. */
export const router = { collection, reference };

export type AppRouter = typeof router;
