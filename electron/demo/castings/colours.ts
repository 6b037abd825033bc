/**
 * The finishes that the maker of the demo offered. Candy lacquer is a clear tint over bare zinc;
 * enamel covers it.
 */
export interface DemoColour {
  name: string;
  swatch: string;
  bodyFinish: 'candy lacquer' | 'enamel' | 'bright plate';
}

const lacquer = (name: string, swatch: string): DemoColour => ({ name, swatch, bodyFinish: 'candy lacquer' });

/** Every colour that the invented maker painted a car. */
export const colours: DemoColour[] = [
  lacquer('Ember', '#d8431f'),
  lacquer('Rosehip', '#d32a5c'),
  lacquer('Claret Cup', '#8e1630'),
  lacquer('Copperleaf', '#b5652b'),
  lacquer('Honeycomb', '#d99a1c'),
  lacquer('Kingcup', '#e3c024'),
  lacquer('Lime Cordial', '#a3bd1f'),
  lacquer('Greengage', '#3f8f2f'),
  lacquer('Fernhouse', '#14683f'),
  lacquer('Tidepool', '#0f8a86'),
  lacquer('Harebell', '#4f9bd0'),
  lacquer('Inkwell', '#1d4f9f'),
  lacquer('Damson', '#5c2a86'),
  lacquer('Sweet Pea', '#c46bb0'),
  lacquer('Brandysnap', '#7a4a24'),
  lacquer('Candlewick', '#cdb98a'),
  lacquer('Slate Roof', '#5b6770'),
  { name: 'Whey', swatch: '#ece7d8', bodyFinish: 'enamel' },
  { name: 'Gorse Flower', swatch: '#e8b512', bodyFinish: 'enamel' },
  { name: 'Peat Bank', swatch: '#5a3a28', bodyFinish: 'enamel' },
  { name: 'Bright Plate', swatch: '#c9ced2', bodyFinish: 'bright plate' },
];

/** A colour of the demo by its name. Throws RangeError where there is none. */
export const colourNamed = (name: string): DemoColour => {
  const found = colours.find(colour => colour.name === name);
  if (!found) throw new RangeError(`the demo paints nothing in "${name}"`);
  return found;
};
