import { Button } from '@mantine/core';
import { useState } from 'react';
import type { ReportResult } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { errorSentence } from '../../api/error-sentence.ts';
import { saveFile } from '../files/save-file.ts';
import { showProblem } from '../notices/undo-notice.tsx';
import { PaperPreview } from './paper-preview.tsx';
import classes from './papers.module.css';

const sizeText = (bytes: number): string =>
  bytes < 1_000_000 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;

/**
 * A paper that has been made: what it is called, what it had to leave out, its pages to look at, and the
 * means to keep it.
 */
export const MadePaper = ({
  result,
  definition,
  onSaved,
}: {
  result: ReportResult;
  /** The name under which it is noted, where it was made by a definition. */
  definition?: string | undefined;
  onSaved?: () => void;
}) => {
  const [saving, setSaving] = useState(false);
  const onSave = async () => {
    setSaving(true);
    try {
      await saveFile(result);
      // A collection that takes no changes cannot note it; the file is saved all the same.
      await api.reports.keep({ token: result.token, ...(definition && { definition }) }).catch(() => {});
      onSaved?.();
    } catch (error) {
      showProblem('The report could not be saved', errorSentence(error));
    } finally {
      setSaving(false);
    }
  };
  return (
    <div className={classes.made}>
      <div className={classes.head}>
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
      {result.previewPages > 0 ? (
        <PaperPreview key={result.token} result={result} />
      ) : result.mime === 'application/pdf' ? (
        <p className="soft">
          Its {result.pages} pages are too many to be shown here. The file that you save has them all.
        </p>
      ) : null}
    </div>
  );
};
