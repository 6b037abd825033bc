/** Where things are put away, as people say it. Common practice, no source. */
const places =
  'loft|attic|tin|box|shoebox|drawer|shelf|shelves|cabinet|display|case|tray|crate|garage|cupboard|closet|wardrobe|dresser|bookcase|sideboard|suitcase|rack|room|bedroom|basement|shed|office|study|hallway|vitrine|regal|kiste|schublade|schrank|keller|' +
  'etagere|étagère|boite|boîte|tiroir|lade|kast|doos|zolder';
const beside =
  'top|bottom|upper|lower|middle|left|right|front|back|side|row|no|nr|number|in|on|the|of|by|near|under|above|behind|beside|next|to|at|my|our|big|small|old|door|window|wall|oben|unten|links|rechts|mitte|reihe|haut|bas|gauche|droite';

const place = new RegExp(`(?<!\\p{L})(?:${places})(?!\\p{L})`, 'iu');
const placeAlone = new RegExp(`^(?:(?:${places}|${beside}|\\d{1,3}|[a-z])(?:[^\\p{L}\\d]+|$))+$`, 'iu');

/** True where a text names a place in which things are put away, whatever else it says. */
export const namesPlace = (text: string): boolean => place.test(text);

/** True where it names one and nothing else, as "Garage shelf - top row" above the cars that stand there. */
export const isPlaceAlone = (text: string): boolean =>
  text.length <= 60 && namesPlace(text) && placeAlone.test(text.trim());
