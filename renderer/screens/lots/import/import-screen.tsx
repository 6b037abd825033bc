export const ImportScreen = () => null;
