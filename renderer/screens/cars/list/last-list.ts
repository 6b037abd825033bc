const key = 'playworn-last-list';

/**
 * Notes the query of the list that is looked at, for this window, so that a car's page leads back
 * to the same cars.
 */
export const rememberList = (search: string): void => sessionStorage.setItem(key, search);

export const listAddress = (): string => {
  const query = sessionStorage.getItem(key);
  return query ? `/cars?${query}` : '/cars';
};
