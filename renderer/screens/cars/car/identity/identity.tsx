import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { type Ref, useRef, useState } from 'react';
import { Link } from 'wouter';
import type { CarPage } from '../../../../../electron/api/views.ts';
import { readDate } from '../../../../../valuation/reading/date.ts';
import { carColour } from '../../../../../valuation/wording/cars/car-names.ts';
import { disclosureText } from '../../../../../valuation/wording/cars/disclosure-text.ts';
import { statusText } from '../../../../../valuation/wording/cars/status-text.ts';
import {
  type BasePaint,
  carGradeLabel,
  finishStates,
  gradeLabel,
  grades,
  settableStatuses,
} from '../../../../../valuation/words.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { dateText } from '../../../../components/format.ts';
import { useKeys } from '../../../../components/keys/use-keys.ts';
import { LacquerChip } from '../../../../components/lacquer-chip/lacquer-chip.tsx';
import { FinishState } from '../../../../components/marks/finish-state.tsx';
import { readerWords } from '../../../../components/words.ts';
import { finishRecord } from '../car-names.ts';
import { InPlaceChoice, InPlaceText } from '../in-place.tsx';
import { CarUnread } from './car-unread.tsx';
import { FeatureList } from './feature-list.tsx';
import { Identify } from './identify.tsx';
import classes from './identity.module.css';

type Patch = Parameters<typeof api.cars.update>[0]['changes'][number]['patch'];

const gradeChoices = [
  { value: '', label: 'ungraded' },
  ...grades.toReversed().map(grade => ({ value: String(grade), label: gradeLabel(grade) })),
];
const stateChoices = () => finishStates.map(state => ({ value: state, label: readerWords().spell(state) }));
const statusChoices = settableStatuses.map(status => ({ value: status, label: statusText(status) }));

const Standing = ({
  car,
  save,
  grade,
}: {
  car: CarPage;
  save: (patch: Patch) => void;
  grade: Ref<HTMLSelectElement>;
}) => (
  <div className={classes.standing}>
    <div className={classes.grade}>
      <InPlaceChoice
        field={grade}
        label="Grade"
        value={car.grade === null ? '' : String(car.grade)}
        choices={gradeChoices}
        onSave={grade => save({ grade: grade === '' ? null : Number(grade) })}
      >
        {car.grade === null ? (
          <span className={classes.ungraded}>ungraded</span>
        ) : (
          <span className={classes.figure}>
            {readerWords().spell(carGradeLabel(car.grade, car.finishState))}
          </span>
        )}
      </InPlaceChoice>
      <span className={classes.rule} aria-hidden="true">
        <span style={{ width: `${(car.grade ?? 0) * 10}%` }} />
      </span>
    </div>
    <div className={classes.finish}>
      <InPlaceChoice
        label="Finish state"
        value={car.finishState}
        choices={stateChoices()}
        onSave={state => save({ finishState: finishStates.find(word => word === state) ?? 'original' })}
      >
        <FinishState state={car.finishState} />
      </InPlaceChoice>
      <span className={classes.under}>finish</span>
    </div>
    {car.rarity ? (
      <div className={classes.finish}>
        <span className={classes.rarity} data-rarity={car.rarity}>
          {car.rarity}
        </span>
        <span className={classes.under}>variation</span>
      </div>
    ) : null}
  </div>
);

/** What the car is and where it stands; whatever its owner decides is edited in place. */
export const Identity = ({ car }: { car: CarPage }) => {
  const [identifying, setIdentifying] = useState(car.identified === 'no');
  const [asked, setAsked] = useState(false);
  const lots = useQuery({ queryKey: ['lots'], queryFn: () => api.lots.list() });
  const update = useAction((patch: Patch) => api.cars.update({ changes: [{ id: car.id, patch }] }), {
    label: `${car.inventoryNumber} changed`,
  });
  const save = (patch: Patch) => update.mutate(patch);
  const grade = useRef<HTMLSelectElement>(null);
  const identify = () => {
    setIdentifying(!identifying);
    setAsked(true);
  };
  useKeys('Car', [
    { keys: 'G', does: 'Grade it', run: () => grade.current?.focus() },
    { keys: 'I', does: 'Identify it', run: identify },
  ]);
  const record = disclosureText(car.disclosure, readerWords().locale) || finishRecord(car.finishState);
  const sold = car.status === 'sold';
  return (
    <div className={classes.identity}>
      <div className={classes.colour}>
        <LacquerChip
          name={carColour(car)}
          swatch={car.swatch}
          basePaint={car.identified === 'variation' ? (car.features.basePaint as BasePaint | '') : ''}
          size="large"
        />
        <Standing car={car} save={save} grade={grade} />
      </div>
      {record ? <p className={classes.record}>{record}</p> : null}
      <div className={classes.what}>
        <FeatureList car={car} />
        <Button aria-expanded={identifying} onClick={identify}>
          {identifying ? 'Close' : car.identified === 'variation' ? 'Identify again' : 'Identify it'}
        </Button>
      </div>
      {identifying ? <Identify car={car} asked={asked} onDone={() => setIdentifying(false)} /> : null}
      <CarUnread car={car} />
      {car.factorySpecification ? (
        <p className={classes.specification}>
          <span className={classes.term}>Factory specification</span> {car.factorySpecification}
        </p>
      ) : null}
      <dl className={classes.facts}>
        <dt>Inventory number</dt>
        <dd>
          <InPlaceText
            label="Inventory number"
            value={car.inventoryNumber}
            placeholder="none"
            required
            onSave={inventoryNumber => save({ inventoryNumber })}
          />
        </dd>
        <dt>Lot</dt>
        <dd className={classes.lot}>
          <InPlaceChoice
            label="Lot"
            value={car.lotId === null ? '' : String(car.lotId)}
            choices={[
              { value: '', label: 'no lot' },
              ...(lots.data ?? []).map(lot => ({ value: String(lot.id), label: lot.name })),
            ]}
            onSave={lotId => save({ lotId: lotId === '' ? null : Number(lotId) })}
          >
            {car.lot ?? <i className="soft">no lot</i>}
          </InPlaceChoice>
          {car.lotId === null ? null : <Link href={`~/lots/${car.lotId}`}>open</Link>}
        </dd>
        <dt>Bought on</dt>
        <dd>
          <InPlaceText
            label="Bought on"
            value={car.boughtOn === null ? '' : dateText(car.boughtOn)}
            placeholder={car.lot === null ? 'day of purchase' : 'with its lot'}
            onSave={text => {
              if (text === '') return save({ boughtOn: null });
              const day = readDate(text, null, null);
              save({ boughtOn: day.ok ? day.value : text });
            }}
          />
        </dd>
        <dt>Seller</dt>
        <dd>
          <InPlaceText
            label="Seller"
            value={car.seller}
            placeholder={car.lot === null ? 'who it was bought from' : 'same as its lot'}
            onSave={seller => save({ seller })}
          />
        </dd>
        <dt>Location</dt>
        <dd>
          <InPlaceText
            label="Location"
            value={car.location}
            placeholder="where it is kept"
            onSave={location => save({ location })}
          />
        </dd>
        <dt>Status</dt>
        <dd>
          <InPlaceChoice
            label="Status"
            value={car.status}
            disabled={sold}
            choices={sold ? [{ value: 'sold', label: 'sold' }] : statusChoices}
            onSave={status => save({ status: status as 'kept' | 'on the bench' | 'donor' })}
          />
        </dd>
        <dt>Notes</dt>
        <dd>
          <InPlaceText
            label="Notes"
            value={car.notes}
            placeholder="anything you want to remember"
            lines
            onSave={notes => save({ notes })}
          />
        </dd>
      </dl>
    </div>
  );
};
