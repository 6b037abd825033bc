/** A grade doubled, as rows keep it so that it stays whole. */
export type HalfGrade = number & { readonly __unit?: 'half grade' };
