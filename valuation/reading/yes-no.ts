/** How lists say yes and no, in the languages that they are kept in, and with marks. Common practice, no source. */
const yes = /^(?:yes|y|x|true|ja|j|oui|s[iíì]|sim|tak|有|あり|はい|wahr|vrai|vero|verdadero|[✓✔☑✅])$/i;
const no = /^(?:no|n|false|nein|nee|nej|nei|nie|non|n[aã]o|無|なし|いいえ|falsch|faux|falso|[✗✘☐❌])$/i;

const longest = 'verdadero'.length;

/** True of a text that says yes and nothing else. */
export const saysYes = (text: string): boolean => text.length <= longest && yes.test(text);

/** True of a text that says no and nothing else. */
export const saysNo = (text: string): boolean => text.length <= longest && no.test(text);
