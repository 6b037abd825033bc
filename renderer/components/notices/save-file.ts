import type { ReportResult } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';

/** Hands a finished file to the reader's own way of saving. */
export const saveFile = async ({
  token,
  fileName,
}: Pick<ReportResult, 'token' | 'fileName'>): Promise<void> => {
  const file = await api.reports.file({ token });
  const url = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = url;
  link.download = fileName;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
};
