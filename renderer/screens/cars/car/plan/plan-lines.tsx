import { ActionIcon, Button } from '@mantine/core';
import { IconX } from '@tabler/icons-react';
import { useId } from 'react';
import type { PartStock } from '../../../../../electron/api/views.ts';
import type { Currency } from '../../../../../valuation/types.ts';
import { amountText } from '../../../../components/format.ts';
import { AmountCell, cellClass, NumberCell } from '../../../../components/inputs/three-cells.tsx';
import classes from './plan.module.css';
import { emptyLine, lineKinds, lineTotal, type PlanDraft, type PlanLine } from './plan-draft.ts';

const points = ['low', 'likely', 'high'] as const;

/** One line, with a cell for each of what it says. */
const LineRow = ({
  line,
  place,
  currency,
  listId,
  onChange,
  onTakeOut,
}: {
  line: PlanLine;
  place: number;
  currency: Currency;
  /** Of the list of parts on the shelf. */
  listId: string;
  onChange: (line: PlanLine) => void;
  onTakeOut: () => void;
}) => {
  const name = line.name || `line ${place + 1}`;
  return (
    <tr>
      <td>
        <input
          className={cellClass}
          aria-label={`Name of line ${place + 1}`}
          placeholder="what it is"
          maxLength={200}
          value={line.name}
          onChange={event => onChange({ ...line, name: event.currentTarget.value })}
        />
      </td>
      <td className={classes.kind}>
        <select
          className={cellClass}
          aria-label={`Kind of ${name}`}
          value={line.kind}
          onChange={event =>
            onChange({
              ...line,
              kind: lineKinds.find(kind => kind === event.currentTarget.value) ?? 'other',
            })
          }
        >
          {lineKinds.map(kind => (
            <option key={kind}>{kind}</option>
          ))}
        </select>
      </td>
      <td className={classes.shelf}>
        <input
          className={cellClass}
          aria-label={`Part from the shelf for ${name}`}
          list={listId}
          placeholder="–"
          maxLength={200}
          value={line.part ?? ''}
          onChange={event => onChange({ ...line, part: event.currentTarget.value })}
        />
      </td>
      <td className={classes.pieces}>
        {line.part ? (
          <NumberCell
            label={`Pieces of ${name}`}
            value={line.quantity ?? 1}
            onChange={quantity => onChange({ ...line, quantity: Math.max(1, Math.round(quantity)) })}
          />
        ) : null}
      </td>
      {points.map(point => (
        <td key={point} className={classes.money}>
          <AmountCell
            label={`${point} cost of ${name}`}
            currency={currency}
            value={line.cost[point]}
            onChange={minor => onChange({ ...line, cost: { ...line.cost, [point]: minor } })}
          />
        </td>
      ))}
      <td className={classes.takeOut}>
        <ActionIcon size={24} aria-label={`Take out ${name}`} onClick={onTakeOut}>
          <IconX size={14} stroke={1.75} />
        </ActionIcon>
      </td>
    </tr>
  );
};

/**
 * What the work takes besides hours: each line with its cost as low, likely and high, and the part it
 * draws from the shelf.
 */
export const PlanLines = ({
  draft,
  currency,
  stock,
  onChange,
}: {
  draft: PlanDraft;
  currency: Currency;
  stock: readonly PartStock[];
  onChange: (lines: PlanLine[]) => void;
}) => {
  const listId = useId();
  const total = lineTotal(draft);
  return (
    <>
      <datalist id={listId}>
        {stock.map(part => (
          <option key={part.id} value={part.name}>
            {part.inStock} in stock, {part.planned} planned
          </option>
        ))}
      </datalist>
      <div className={classes.linesScroll}>
        <table className={classes.lines}>
          <thead>
            <tr>
              <th scope="col">Parts, materials and tools</th>
              <th scope="col">Kind</th>
              <th scope="col">From the shelf</th>
              <th scope="col" className={classes.end}>
                Pieces
              </th>
              {points.map(point => (
                <th key={point} scope="col" className={classes.end}>
                  {point}
                </th>
              ))}
              <th scope="col">
                <span className="heard">Remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {draft.lines.map((line, place) => (
              <LineRow
                key={place}
                line={line}
                place={place}
                currency={currency}
                listId={listId}
                onChange={next => onChange(draft.lines.with(place, next))}
                onTakeOut={() => onChange(draft.lines.toSpliced(place, 1))}
              />
            ))}
          </tbody>
          <tfoot>
            <tr>
              <th scope="row" colSpan={4}>
                <Button variant="subtle" onClick={() => onChange([...draft.lines, emptyLine])}>
                  Add a line
                </Button>
              </th>
              {points.map(point => (
                <td key={point} className={classes.sum}>
                  {amountText(total[point], currency)}
                </td>
              ))}
              <td />
            </tr>
          </tfoot>
        </table>
      </div>
    </>
  );
};
