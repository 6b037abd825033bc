/** Until the page has drawn what it was just told. */
export const drawn = (): Promise<void> => new Promise(resolve => setTimeout(resolve, 0));
