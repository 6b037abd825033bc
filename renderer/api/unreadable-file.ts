/** The files of an input, which stand in its fields or in lists of them. */
const filesOf = (input: unknown): File[] =>
  typeof input === 'object' && input !== null
    ? Object.values(input)
        .flat()
        .filter(value => value instanceof File)
    : [];

/**
 * Why a call failed, where it was for a file that the browser could not read to send it; else the error as it
 * came. A folder that is dropped is such a file, and so is one that changed or went since it was chosen.
 */
export const orUnreadable = async (error: unknown, input: unknown): Promise<unknown> => {
  for (const file of filesOf(input))
    try {
      await file.slice(0, 1).arrayBuffer();
    } catch {
      return new Error(
        `${file.name} could not be read. It may be a folder, or was moved or changed after you chose it.`,
      );
    }
  return error;
};
