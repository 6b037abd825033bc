import type { Span } from './text.ts';

/** What is found of a field, and where. */
export type Put = (field: string, value: string, span: Span) => void;
