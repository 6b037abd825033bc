import { z } from 'zod';

export const dismissStep = z.object({ kind: z.enum(['cars', 'names', 'words', 'prices', 'decide']) });
