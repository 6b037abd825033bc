import { ORPCError } from '@orpc/client';
import { describe, expect, it } from 'vitest';
import { errorSentence } from '../../../renderer/api/error-sentence.ts';
import { codeIn } from '../../../renderer/api/http-link.ts';

describe('the single-use code in the address', () => {
  it('is read from a fragment that holds nothing else', () => {
    expect(codeIn('#code=6d6rXGhKbUUFpeP6u24pLg')).toBe('6d6rXGhKbUUFpeP6u24pLg');
    for (const other of ['', '#', '#/cars/12', '#code=', '#code=a b', '#/x#code=abc', '#code=<script>'])
      expect(codeIn(other)).toBeNull();
  });
});

describe('what went wrong', () => {
  it('is said in the words of the service', () => {
    expect(errorSentence(new ORPCError('REFUSED', { status: 422, message: 'A lot needs a name' }))).toBe(
      'A lot needs a name',
    );
  });

  it('is said for the owner where the service could say nothing', () => {
    expect(errorSentence(new TypeError('Failed to fetch'))).toContain('Is Playworn still running?');
    expect(errorSentence(new ORPCError('UNAUTHORIZED', { status: 401 }))).toContain('Open the address');
    expect(errorSentence('odd')).toContain('no reason');
  });
});
