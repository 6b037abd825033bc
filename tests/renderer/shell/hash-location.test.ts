import { describe, expect, it } from 'vitest';
import { placeIn } from '../../../renderer/shell/hash-location.ts';

describe('the place that a fragment names', () => {
  it('parts the path from the query', () => {
    expect(placeIn('#/cars?casting=3&show=open-variation')).toEqual({
      path: '/cars',
      query: 'casting=3&show=open-variation',
    });
    expect(placeIn('#/cars/12')).toEqual({ path: '/cars/12', query: '' });
  });
  it('takes a fragment without its slash, an empty one, and further question marks', () => {
    expect(placeIn('#lots')).toEqual({ path: '/lots', query: '' });
    expect(placeIn('')).toEqual({ path: '/', query: '' });
    expect(placeIn('/cars?text=what?')).toEqual({ path: '/cars', query: 'text=what?' });
  });
});
