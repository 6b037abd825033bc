/**
 * A reader that has seen enough, such as `head`, closes its end of the line; what is still written then goes
 * nowhere, and the work goes on to its end.
 */
export const outliveReaders = (): void => {
  for (const stream of [process.stdout, process.stderr])
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') throw error;
    });
};
