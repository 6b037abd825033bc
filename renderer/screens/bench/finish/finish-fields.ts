import type { ChangeEvent } from 'react';
import type { FinishDraft } from './finish-draft.ts';

/** A part of the form: what is written so far, and how it changes. */
export interface FinishPart {
  draft: FinishDraft;
  change: (part: Partial<FinishDraft>) => void;
}

type Line = 'colour' | 'bodyFinish' | 'basePaint' | 'roof' | 'bearings' | 'axles' | 'who' | 'mark';
type Text = 'leftAsWas' | 'materials' | 'partsUsed' | 'notes';

/** A field of one line. */
export const lineField = (draft: FinishDraft, change: FinishPart['change']) => (name: Line) => ({
  value: draft[name],
  maxLength: 200,
  onChange: (event: ChangeEvent<HTMLInputElement>) => change({ [name]: event.currentTarget.value }),
});

/** A field that grows with its text. */
export const textField = (draft: FinishDraft, change: FinishPart['change']) => (name: Text) => ({
  value: draft[name],
  autosize: true,
  minRows: 1,
  onChange: (event: ChangeEvent<HTMLTextAreaElement>) => change({ [name]: event.currentTarget.value }),
});
