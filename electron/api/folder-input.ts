import { homedir } from 'node:os';
import { isAbsolute, join, normalize } from 'node:path';
import { z } from 'zod';

/**
 * A folder that a person has written: from the root, or from their home as `~/…`. Anything else is refused,
 * because it would lie wherever the program happened to be started.
 */
export const folderInput = z
  .string()
  .min(1)
  .transform((text, context) => {
    const folder = /^~(?=$|[\\/])/.test(text) ? join(homedir(), text.slice(1)) : text;
    if (isAbsolute(folder)) return normalize(folder);
    context.addIssue({
      code: 'custom',
      message: `"${text}" does not say which folder it is in; write the folder in full, such as ${join(homedir(), text)}`,
    });
    return z.NEVER;
  });
