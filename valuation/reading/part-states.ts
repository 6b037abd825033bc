import type { PartState } from '../types.ts';
import { type Originality, originalities, type PartName } from '../words.ts';
import { type Cell, isAmountCell, notUnderstood, type Reading, shownNumber, understood } from './reading.ts';
import { plainWord, readGrade, readParts } from './words.ts';
import { saysNo, saysYes } from './yes-no.ts';

/** What a cell says of one part: its grade, where it comes from, and the rest in its own words. */
export interface PartReading extends PartState {
  note: string;
}

const textOf = (cell: Cell): string =>
  (isAmountCell(cell) ? shownNumber(cell.number) : String(cell ?? '')).trim();

const originWords: Record<string, Originality> = {
  orig: 'original',
  originals: 'original',
  repro: 'reproduction',
  repros: 'reproduction',
  reproductions: 'reproduction',
  nachbau: 'reproduction',
  'period replacements': 'period replacement',
  gone: 'missing',
  lost: 'missing',
  lacking: 'missing',
  fehlt: 'missing',
  manque: 'missing',
  manquant: 'missing',
};
const originOf = (text: string): Originality | null => {
  const word = plainWord(text);
  return (
    originalities.find(one => one === word) ?? (Object.hasOwn(originWords, word) ? originWords[word]! : null)
  );
};

const longest = 2000;
/** A part that is a copy of the maker's, as it is said of boxes: "custom box", "yes (repro)". */
const copied = /^(?:repro(?:duction)?|replica|custom|home-?made) (.+)$/i;
const markedCopy = / *\((?:repros?|reproduction|nachbau|replica|copy)\)$/i;
const isThere = /^(?:ok|good|fine|present|there|complete)$/i;
const isNone = /^(?:none|nil|without|kein|keine|sans|geen|sin|senza|bez|brak|sem)$/i;
const isYes = (text: string): boolean => saysYes(text) || isThere.test(text);
const isNo = (text: string): boolean => saysNo(text) || isNone.test(text);
const packagings =
  'box|card|blister|bag|pack(?:ag(?:e|ing))?|carton|ovp|schachtel|verpackung|karton|bo[iî]te|emballage|doos|verpakking|caja|embalaje|scatola|confezione';
/** That a car has no packaging, or has it no more. Common practice, no source. */
const noPackaging = new RegExp(
  `^(?:(?:no|without|w/o|not in|ohne|keine?|sans|pas de|zonder|geen|sin|senza) (?:(?:the|its|an?|any|original|orig\\.?) )*(?:${packagings})|(?:${packagings}) (?:is )?(?:missing|gone|lost|fehlt|manque)|not boxed|un-?boxed|un-?carded|loose|lose|0)\\W*$`,
  'i',
);
const nothing = /^0(?:[.,]0)?(?: ?\/ ?10)?$/;
/** A grade with a remark in brackets, as "4 (2 flat)". */
const gradeAndRemark = /^(c? ?\d{1,2}(?:[.,]5)?) *\(([^()]+)\)$/i;
/** Of a packaging, one may be a grade or a yes, and a letter may stand for much. */
const open = /^1$|\?|^\p{L}{1,2}$|^(?:maybe|perhaps|unknown|not sure|possibly)$/iu;

/**
 * What a cell under the name of a part says of it, such as "C7", "repro", "C5, blister card" or "bent"; null where it says
 * nothing, or that a car has no packaging. A "no" under another part is asked: the casting may never have had it.
 */
export const readPartState = (part: PartName, cell: Cell): Reading<PartReading | null> => {
  const text = textOf(cell);
  if (text.length > longest)
    return notUnderstood(`the text has ${text.length} characters; ${longest} are the most here`);
  if (isNo(text))
    return part === 'packaging'
      ? understood(null)
      : notUnderstood(`"${text}": missing, or has the casting never had it?`);
  if (part === 'packaging') {
    if (noPackaging.test(text)) return understood(null);
    if (open.test(text) && !isYes(text))
      return notUnderstood(`"${text}" does not say for certain whether it has one`);
  }
  if (nothing.test(text)) return notUnderstood(`"${text}" is not a grade; is the part missing?`);
  const found: PartReading = { part, grade: null, originality: 'original', note: '' };
  const rest: string[] = [];
  const isCopy = markedCopy.test(text);
  const said = text.replace(markedCopy, '').replace(gradeAndRemark, '$1, $2');
  let origins = isCopy ? 1 : 0;
  if (isCopy) found.originality = 'reproduction';
  for (const piece of said.split(/[,\n]/).map(one => one.trim())) {
    if (piece === '' || isYes(said)) continue;
    const grade = found.grade === null ? readGrade(piece) : null;
    // Of two, such as "missing, gone", the second is said of it in words.
    const origin = origins === 0 ? originOf(piece) : null;
    const begun = copied.exec(piece)?.[1];
    if (grade?.ok) found.grade = grade.value;
    else if (origin) {
      found.originality = origin;
      origins += 1;
    } else if (begun !== undefined) {
      found.originality = 'reproduction';
      rest.push(begun);
    } else rest.push(piece);
  }
  found.note = rest.join(', ');
  // What is not there has no grade.
  if (found.originality === 'missing') found.grade = null;
  return text === '' ? understood(null) : understood(found);
};

/** Parts with what is said of each, as `partStatesText` writes them: "axles: C3; wheels: C8, reproduction". */
export const readPartStates = (cell: Cell): Reading<PartReading[]> => {
  const found = new Map<PartName, PartReading>();
  for (const piece of textOf(cell).split(/[;\n]/)) {
    if (!piece.trim()) continue;
    const [, name = '', said = ''] = /^([^:]*):(.*)$/s.exec(piece) ?? [];
    const parts = readParts(name);
    const part = parts.ok && parts.value.length === 1 ? parts.value[0] : undefined;
    if (part === undefined || !said.trim())
      return notUnderstood(`"${piece.trim()}" does not read as a part and its state, such as "axles: C3"`);
    const read = readPartState(part, said);
    if (!read.ok) return read;
    if (read.value) found.set(part, read.value);
  }
  return understood([...found.values()]);
};
