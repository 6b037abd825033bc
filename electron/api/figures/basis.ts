/** The basis on which every worth of this program stands: what a willing buyer pays a willing seller. */
export const basisOfWorths = 'fair market value';
