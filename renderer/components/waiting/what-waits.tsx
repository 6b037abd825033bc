import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import { api } from '../../api/client.ts';
import { counted } from '../format.ts';
import { Section } from '../layout/section.tsx';

/** What waits for an answer of the owner's, with the way to each; nothing where nothing does. */
export const WhatWaits = () => {
  const names = useQuery({ queryKey: ['names'], queryFn: () => api.names.waiting() }).data;
  const words = useQuery({ queryKey: ['words waiting'], queryFn: () => api.words.waiting() }).data;
  const nameCount = names?.names.length ?? 0;
  const wordCount = words?.length ?? 0;
  if (nameCount + wordCount === 0) return null;
  return (
    <Section title="What waits for you">
      <ul>
        {nameCount > 0 ? (
          <li>
            <Link href="~/reference/names">
              {counted(nameCount, 'name is', 'names are')} not in the reference yet
            </Link>
            : cars and sales count in values once their names are settled, one key each.
          </li>
        ) : null}
        {wordCount > 0 ? (
          <li>
            <Link href="~/not-understood">{counted(wordCount, 'text was', 'texts were')} not understood</Link>
            : saved as written; say once what each means.
          </li>
        ) : null}
      </ul>
    </Section>
  );
};
