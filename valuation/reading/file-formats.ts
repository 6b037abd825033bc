/** The encodings of text that can be read, by the names that TextDecoder knows. */
export const encodings = ['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'] as const;
export type Encoding = (typeof encodings)[number];

/** What may stand between the cells of a line. */
export const separators = [',', ';', '\t', '|'] as const;
export type Separator = (typeof separators)[number];
