import { Button } from '@mantine/core';
import { useState } from 'react';
import type { ReportResult } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { errorSentence } from '../../api/error-sentence.ts';
import { showProblem } from '../../components/notices/undo-notice.tsx';
import classes from './reports.module.css';

const sizeText = (bytes: number): string =>
  bytes < 1_000_000 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;

/** Hands the file to the reader's own way of saving. */
const save = async ({ token, fileName }: ReportResult): Promise<void> => {
  const file = await api.reports.file({ token });
  const url = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = url;
  link.download = fileName;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
};

/** A report that has been made: what it is called, what it had to leave out, and the means to keep it. */
export const MadeReport = ({ result }: { result: ReportResult }) => {
  const [saving, setSaving] = useState(false);
  const onSave = async () => {
    setSaving(true);
    try {
      await save(result);
    } catch (error) {
      showProblem('The report could not be saved', errorSentence(error));
    } finally {
      setSaving(false);
    }
  };
  return (
    <div className={classes.made}>
      <div>
        <strong>{result.fileName}</strong> <span className="soft">{sizeText(result.bytes)}</span>
      </div>
      <Button variant="filled" size="sm" loading={saving} onClick={() => void onSave()} autoFocus>
        Save it
      </Button>
      {result.warnings.length ? (
        <ul className={`${classes.warnings} caution`}>
          {result.warnings.map(warning => (
            <li key={warning}>{warning}</li>
          ))}
        </ul>
      ) : null}
    </div>
  );
};
