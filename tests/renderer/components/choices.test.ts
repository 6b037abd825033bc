import { describe, expect, it } from 'vitest';
import { filterChoices, matchChoice } from '../../../renderer/components/inputs/choices.ts';

const choices = ['Ember', 'Old Ember', 'Lagoon', 'Café Crème', 'September'].map(label => ({
  value: label,
  label,
}));
const labels = (text: string) => filterChoices(choices, text).map(choice => choice.label);

describe('filterChoices', () => {
  it('puts the exact one first, then those that begin so, then a word of theirs, then any place', () => {
    expect(labels('ember')).toEqual(['Ember', 'Old Ember', 'September']);
  });

  it('minds neither accents nor capitals, and needs every word', () => {
    expect(labels('CREME caf')).toEqual(['Café Crème']);
    expect(labels('old lagoon')).toEqual([]);
  });

  it('shows all when nothing is typed, up to the limit, and takes signs for signs', () => {
    expect(labels('')).toHaveLength(5);
    expect(filterChoices(choices, '', 2)).toHaveLength(2);
    expect(labels('.*')).toEqual([]);
    expect(labels('(')).toEqual([]);
  });
});

describe('matchChoice', () => {
  it('takes what a text names outright, or can only mean', () => {
    expect(matchChoice(choices, ' ember ')?.label).toBe('Ember');
    expect(matchChoice(choices, 'cafe')?.label).toBe('Café Crème');
  });

  it('guesses nothing', () => {
    expect(matchChoice([...choices, { value: 'x', label: 'Emberglow' }], 'emb')).toBeNull();
    expect(matchChoice(choices, '')).toBeNull();
    expect(matchChoice(choices, 'mber')).toBeNull();
  });
});
