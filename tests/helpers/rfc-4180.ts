/**
 * Reads CSV by the grammar of RFC 4180, section 2, and by nothing else: no guessing, no trimming; a
 * byte-order mark is passed over. Throws where the text is not in that grammar: written apart from the parser
 * that the program uses.
 */
export const readRfc4180 = (given: string): string[][] => {
  const text = given.replace(/^\ufeff/, '');
  const rows: string[][] = [];
  let row: string[] = [];
  let i = 0;
  const quoted = (): string => {
    let cell = '';
    i += 1;
    for (;;) {
      const end = text.indexOf('"', i);
      if (end < 0) throw new Error(`An open quotation mark in row ${rows.length + 1}`);
      cell += text.slice(i, end);
      i = end + 1;
      if (text[i] !== '"') return cell;
      cell += '"';
      i += 1;
    }
  };
  const bare = (): string => {
    const [cell] = /^[^",\r\n]*/.exec(text.slice(i, i + 100_000))!;
    i += cell.length;
    return cell;
  };
  while (i < text.length) {
    row.push(text[i] === '"' ? quoted() : bare());
    if (text[i] === ',') {
      i += 1;
      if (i === text.length || text.startsWith('\r\n', i)) row.push('');
    }
    if (text.startsWith('\r\n', i) || i === text.length) {
      rows.push(row);
      row = [];
      i += 2;
    } else if (text[i - 1] !== ',')
      throw new Error(`${JSON.stringify(text[i])} after a cell in row ${rows.length + 1}`);
  }
  return rows;
};
