/**
 * Writes the README's section of cautions from the one text that the screens show. Run by hand
 * when it changes:
 *
 *   node tests/helpers/readme-cautions.ts
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { cautions, generalCautions, hazards } from '../../valuation/wording/work/cautions.ts';

const path = fileURLToPath(new URL('../../README.md', import.meta.url));
const heading = '## Cautions\n\n';

/** The section as it must stand, from its heading up to the next. */
export const cautionsSection = (): string => {
  const hazardLines = hazards.map(hazard => {
    const { title, sentences, authority } = cautions[hazard];
    return `- **${title}.** ${sentences.join(' ')} *(${authority})*`;
  });
  return [
    `${heading}Restoration work can injure you. These cautions are listed by hazard, the gravest first; all of it is from memory, and the`,
    'sources in brackets say where to look it up. Playworn shows those that a plan calls for beside the plan, and beside restoring and',
    'taking apart on Decide and in Settings; it does not replace knowledge of them.\n',
    generalCautions.join(' '),
    '',
    ...hazardLines,
    '\n',
  ].join('\n');
};

/** The README, its section of cautions, and what stands before and after it. */
export const readmeParts = () => {
  const text = readFileSync(path, 'utf8');
  const start = text.indexOf(heading);
  const end = text.indexOf('\n## ', start) + 1;
  return { before: text.slice(0, start), section: text.slice(start, end), after: text.slice(end) };
};

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { before, after } = readmeParts();
  writeFileSync(path, `${before}${cautionsSection()}${after}`);
}
