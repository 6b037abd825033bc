import { ActionIcon, Button, TextInput } from '@mantine/core';
import { IconPencil, IconX } from '@tabler/icons-react';
import { useState } from 'react';
import type { CarPlanView } from '../../../../../../electron/api/views.ts';
import type { Currency, PlanWishes, WorkLine } from '../../../../../../valuation/types.ts';
import { cautions } from '../../../../../../valuation/wording/work/cautions.ts';
import { workReasonText } from '../../../../../../valuation/wording/work/work-text.ts';
import { useWords } from '../../../../../components/words.ts';
import planClasses from '../plan.module.css';
import { LineEditor } from './line-editor.tsx';
import classes from './steps.module.css';
import { CostText, minutesText, waitingText } from './three-text.tsx';
import { isChanged, materialCost, withOwnLine, withoutLine, withStep } from './wishes.ts';

interface Part {
  wishes: PlanWishes;
  onChange: (wishes: PlanWishes) => void;
}

/** A line of a plan, and below it the means to change it where they are open. */
const LineRow = ({
  line,
  place,
  lines,
  wishes,
  currency,
  isOpen,
  onOpen,
  onChange,
}: Part & {
  line: WorkLine;
  place: number;
  lines: readonly WorkLine[];
  currency: Currency;
  isOpen: boolean;
  onOpen: (isOpen: boolean) => void;
}) => {
  const words = useWords();
  return (
    <>
      <tr data-changed={isChanged(wishes, line.id) || undefined} className={classes.line}>
        <td className={`soft ${planClasses.end}`}>{place + 1}</td>
        <th scope="row" className={classes.name}>
          {words.spell(line.name)}
          {line.hazards.length > 0 ? (
            <span className={classes.hazards}>
              {line.hazards.map(hazard => words.spell(cautions[hazard].title)).join(' · ')}
            </span>
          ) : null}
        </th>
        <td className={classes.why}>{workReasonText(line.why, words.locale)}</td>
        <td className={`${planClasses.end} amount`}>{minutesText(line.hands)}</td>
        <td className={`${planClasses.end} amount soft`}>{waitingText(line.waiting)}</td>
        <td className={`${planClasses.end} amount`}>
          {line.materials.length > 0 ? <CostText cost={materialCost(line)} currency={currency} /> : '–'}
        </td>
        <td className={classes.tools}>
          <ActionIcon
            size={28}
            aria-label={`Change ${words.spell(line.name)}`}
            aria-expanded={isOpen}
            onClick={() => onOpen(!isOpen)}
          >
            <IconPencil size={15} stroke={1.75} />
          </ActionIcon>
          <ActionIcon
            size={28}
            aria-label={`Take out ${words.spell(line.name)}`}
            onClick={() => onChange(withoutLine(wishes, line.id))}
          >
            <IconX size={15} stroke={1.75} />
          </ActionIcon>
        </td>
      </tr>
      {isOpen ? (
        <tr>
          <td />
          <td colSpan={6} className={classes.editing}>
            <LineEditor line={line} lines={lines} wishes={wishes} currency={currency} onChange={onChange} />
          </td>
        </tr>
      ) : null}
    </>
  );
};

/**
 * Steps that were taken out, to be put back; steps that were not called for, and steps of one's own, to be
 * added.
 */
const MoreSteps = ({
  view,
  wishes,
  onChange,
  onOpen,
}: Part & { view: CarPlanView; onOpen: (line: string | null) => void }) => {
  const words = useWords();
  const [own, setOwn] = useState('');
  const addOwn = () => {
    const name = own.trim();
    if (name === '') return;
    const next = withOwnLine(wishes, name);
    onChange(next);
    onOpen(next.added?.at(-1)?.id ?? null);
    setOwn('');
  };
  const takenOut = view.more.filter(({ id }) => wishes.without?.includes(id));
  const others = view.more.filter(({ id }) => !wishes.without?.includes(id));
  return (
    <>
      {takenOut.length > 0 ? (
        <p className={classes.out}>
          <span className="soft">Taken out:</span>
          {takenOut.map(({ id, name }) => (
            <Button key={id} variant="subtle" onClick={() => onChange(withStep(wishes, id))}>
              <s>{words.spell(name)}</s>&ensp;put back
            </Button>
          ))}
        </p>
      ) : null}
      <div className={classes.add}>
        <label>
          <span className="heard">Add one of the steps</span>
          <select
            className={planClasses.cell}
            aria-label="Add one of the steps"
            value=""
            onChange={event => {
              if (event.currentTarget.value) onChange(withStep(wishes, event.currentTarget.value));
            }}
          >
            <option value="">Add one of the steps…</option>
            {others.map(({ id, name }) => (
              <option key={id} value={id}>
                {words.spell(name)}
              </option>
            ))}
          </select>
        </label>
        <form
          onSubmit={event => {
            event.preventDefault();
            addOwn();
          }}
        >
          <TextInput
            aria-label="A step of your own"
            placeholder="or a step of your own"
            maxLength={200}
            value={own}
            onChange={event => setOwn(event.currentTarget.value)}
          />
          <Button type="submit" variant="default" disabled={own.trim() === ''}>
            Add step
          </Button>
        </form>
      </div>
    </>
  );
};

/**
 * What is to be done, line by line, each with the fact that called for it; lines are taken out, changed and
 * added.
 */
export const LinesTable = ({
  view,
  wishes,
  currency,
  onChange,
}: {
  view: CarPlanView;
  wishes: PlanWishes;
  currency: Currency;
  onChange: (wishes: PlanWishes) => void;
}) => {
  const [open, setOpen] = useState<string | null>(null);
  const { lines } = view.plan;
  return (
    <>
      <div className={classes.scroll}>
        <table className={planClasses.lines}>
          <thead>
            <tr>
              <th scope="col" className={planClasses.end}>
                <span className="heard">Number</span>
              </th>
              <th scope="col">Step</th>
              <th scope="col">Why</th>
              <th scope="col" className={planClasses.end}>
                Your minutes
              </th>
              <th scope="col" className={planClasses.end}>
                Waiting
              </th>
              <th scope="col" className={planClasses.end}>
                Materials
              </th>
              <th scope="col">
                <span className="heard">Change or take out</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {lines.map((line, place) => (
              <LineRow
                key={line.id}
                line={line}
                place={place}
                isOpen={open === line.id}
                onOpen={isOpen => setOpen(isOpen ? line.id : null)}
                {...{ lines, wishes, currency, onChange }}
              />
            ))}
          </tbody>
        </table>
      </div>
      <MoreSteps view={view} wishes={wishes} onChange={onChange} onOpen={setOpen} />
    </>
  );
};
