/** A dash or a question mark alone says as much as a blank cell. */
const says = /^(?!n\/a$)(?=.*[^\s?\-–—.])/isu;
const isLetterOrDigit = (code: number): boolean =>
  (code >= 97 && code <= 122) || (code >= 65 && code <= 90) || (code >= 48 && code <= 57);

/** True of a text that says more than a blank cell does. */
export const saysSomething = (text: string): boolean =>
  // So most cells begin, which are asked again and again.
  (text.length > 3 && isLetterOrDigit(text.charCodeAt(0))) || says.test(text);

/** So somebody fills a cell of which there is nothing to say. Common practice, no source. */
const unknown =
  /^(?:n\/k|unknown|not known|tbc|tba|unbekannt|inconnue?|desconocid[oa]|sconosciut[oa]|onbekend)\.?$/i;
const longestUnknown = 'desconocido.'.length;
/** True of a word for it that it is not known. */
export const isUnknown = (text: string): boolean => text.length <= longestUnknown && unknown.test(text);
