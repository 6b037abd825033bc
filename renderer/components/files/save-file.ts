import type { ReportResult } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';

/** Hands a file to the reader's own way of saving; a slow one has a minute to begin. */
const save = (file: Blob, fileName: string): void => {
  const url = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = url;
  link.download = fileName;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
};

/** Saves a file that was made in the collection. */
export const saveFile = async ({
  token,
  fileName,
}: Pick<ReportResult, 'token' | 'fileName'>): Promise<void> =>
  save(await api.reports.file({ token }), fileName);

/** Saves a CSV text; the mark at its head tells a spreadsheet that it is UTF-8. */
export const saveCsv = (text: string, fileName: string): void =>
  save(new Blob(['\ufeff', text], { type: 'text/csv' }), fileName);
