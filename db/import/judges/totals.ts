/**
 * Words that make a line one of totals, as the footers of lists have them in several languages. Common
 * practice, no source.
 */
const totalWords = new Set(
  (
    'total totals subtotal subtotals sum sums summe summen zwischensumme gesamt gesamtsumme gesamtwert gesamtpreis gesamtbetrag ' +
    'gesamtzahl endsumme insgesamt totaux totaal totale totali totales suma somma somme summa totalt subtotaal sous-total ' +
    'together altogether zusammen ' +
    'average avg mean median durchschnitt schnitt mittelwert moyenne media promedio gemiddelde count anzahl nombre aantal ' +
    'razem celkem součet összesen toplam yhteensä итого всего σύνολο 合計 小計 総計 总计 合计 σ ∑'
  ).split(' '),
);

/** Words that may stand beside one of those. */
const besides = new Set(
  (
    'grand sub over overall running final net gross sum of all the a an for in on at this that to from and so far cars car items item ' +
    'pieces piece pcs models model vehicles rows row lines entries lot lots box boxes shelf page list collection sheet year month ' +
    'paid spent cost costs price prices value values worth amount amounts purchase purchases sales sold grade grades number no ' +
    'general général générale generale geral de des du d la le les los las il lo del della der die das aller alle von für im und ' +
    'autos auto wagen modelle stück stk fahrzeuge voitures pièces coches piezas pezzi modelli kosten preis wert bezahlt ' +
    'i alt van het voor en prix payé coste precio valor costo prezzo usd eur gbp jpy cad aud chf sek nok dkk'
  ).split(' '),
);

const wordsOf = (text: string): string[] =>
  text.toLowerCase().match(/[\p{L}∑][\p{L}\p{M}'’]*(?:-[\p{L}]+)*/gu) ?? [];

const isTotalLabel = (text: string): boolean => {
  if (text.length > 80) return false;
  const whole = wordsOf(text);
  const words = whole.flatMap(word => (totalWords.has(word) ? [word] : word.split('-')));
  return (
    words.length > 0 &&
    words.length <= 8 &&
    words.some(word => totalWords.has(word)) &&
    words.every(word => totalWords.has(word) || besides.has(word))
  );
};

/** A cell that says how many or how much, and nothing else: "2.604,00 €", "9 cars", "C6.2". */
const isFigure = (text: string): boolean =>
  /\d/.test(text) && (text.match(/\p{L}+/gu) ?? []).length <= 1 && text.length <= 40;

const anyTotalWord = new RegExp([...totalWords].join('|'), 'i');
/** Words without a figure that are no label. Most rows have such a cell, and need no closer look. */
const saysOfItsOwn = (text: string): boolean =>
  !/\d/.test(text) && /\p{L}/u.test(text) && !anyTotalWord.test(text);

/**
 * True where the filled cells of a row are a label such as "Total paid (9 cars)" and beside it nothing but
 * figures. A record says something of its own: a row whose other cells hold words is one.
 */
export const isTotalsRow = (filled: readonly string[]): boolean => {
  if (filled.some(saysOfItsOwn) || !filled.some(text => anyTotalWord.test(text))) return false;
  const labels = filled.filter(isTotalLabel);
  return (
    (labels.length === 1 || labels.length === 2) &&
    filled.every(text => isTotalLabel(text) || isFigure(text) || !/[\p{L}\d]/u.test(text))
  );
};
