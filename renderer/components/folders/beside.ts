const separatorOf = (dir: string): string => (/^[a-z]:\\|^\\\\/i.test(dir) ? '\\' : '/');

/** What has a name in a folder, as that folder's system writes it. */
export const inFolder = (dir: string, name: string): string => {
  const separator = separatorOf(dir);
  return dir.endsWith(separator) ? dir + name : dir + separator + name;
};

/** What has a name beside a folder. */
export const beside = (dir: string, name: string): string => {
  const at = Math.max(dir.lastIndexOf('/'), dir.lastIndexOf('\\'));
  return at <= 0 ? inFolder(dir, name) : dir.slice(0, at + 1) + name;
};
