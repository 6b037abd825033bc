/**
 * Where the first start is seen though a collection cannot be opened, and the recovery though
 * another one is open.
 */
export const places = { firstStart: '/start', recovery: '/recovery' };
