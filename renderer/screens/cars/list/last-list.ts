/** The query of the list that was looked at last, so that a car's page leads back to the same cars. */
let query = '';

export const rememberList = (search: string): void => {
  query = search;
};

export const listAddress = (): string => (query ? `/cars?${query}` : '/cars');
