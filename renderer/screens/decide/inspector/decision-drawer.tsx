import { Button, Drawer } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import type { CarPage } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { isWorkKind, type Option } from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { DecideForm } from '../../../components/decision/decide-form.tsx';
import { Headline } from '../../../components/decision/headline.tsx';
import { OptionsTable } from '../../../components/decision/options-table.tsx';
import { BreakEven, Guards, Reasons } from '../../../components/decision/reasons.tsx';
import { Tornado } from '../../../components/decision/tornado.tsx';
import { WorkList } from '../../../components/decision/work-list.tsx';
import { dateText } from '../../../components/format.ts';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { RecommendationMark } from '../../../components/marks/recommendation-mark.tsx';
import { carName } from '../car-words.ts';
import classes from './inspector.module.css';

const Recorded = ({ car }: { car: CarPage }) => {
  const { recorded } = car.decision;
  const clear = useAction(() => api.decisions.clear({ id: car.id }), { label: 'Decision undone' });
  if (!recorded) return null;
  return (
    <p className={classes.recorded}>
      <RecommendationMark recommendation={recorded.choice} />
      <span className="soft">decided {dateText(recorded.decidedOn)}</span>
      {recorded.reason ? <q>{recorded.reason}</q> : null}
      <Button variant="subtle" onClick={() => clear.mutate()}>
        Undo it
      </Button>
    </p>
  );
};

const Whole = ({ car, currency }: { car: CarPage; currency: Currency }) => {
  const [choice, setChoice] = useState<Option | null>(null);
  const { decision } = car;
  const weighed = decision.options.length > 0;
  const shown = choice ?? decision.recorded?.choice ?? decision.recommendation;
  return (
    <div className={classes.whole}>
      <div>
        <Headline decision={decision} currency={currency} />
        <BreakEven decision={decision} currency={currency} />
        <Guards decision={decision} />
        <Reasons decision={decision} currency={currency} />
      </div>
      {weighed ? (
        <OptionsTable
          decision={decision}
          currency={currency}
          chosen={decision.recorded?.choice ?? null}
          onChoose={setChoice}
        />
      ) : null}
      {isWorkKind(shown) ? <WorkList carId={car.id} kind={shown} currency={currency} /> : null}
      <Tornado decision={decision} planned={car.plan?.kind ?? 'restore'} currency={currency} />
      <section aria-label="Decision" className={classes.decide}>
        <Recorded car={car} />
        <DecideForm
          key={decision.recorded?.decidedOn ?? ''}
          carId={car.id}
          decision={decision}
          choice={choice}
          reason={decision.recorded?.reason}
          onChoice={setChoice}
        />
      </section>
      <p className={classes.more}>
        <Link href={`~/cars/${car.id}`}>The car’s page</Link>
        <span className="soft">
          {' '}
          opens every figure down to the sale records behind it, and has its plan.
        </span>
      </p>
    </div>
  );
};

/** All that speaks for and against each option of a car, and what its owner decides. */
export const DecisionDrawer = ({
  carId,
  currency,
  onClose,
}: {
  carId: number | null;
  currency: Currency;
  onClose: () => void;
}) => {
  const car = useQuery({
    queryKey: ['car', carId],
    queryFn: () => api.cars.get({ id: carId ?? 0 }),
    enabled: carId !== null,
  });
  return (
    <Drawer
      opened={carId !== null}
      onClose={onClose}
      position="right"
      size={920}
      title={
        car.data ? (
          <span className={classes.title}>
            {carName(car.data)} <span className="soft">{car.data.inventoryNumber}</span>
          </span>
        ) : (
          'Options'
        )
      }
      closeButtonProps={{ 'aria-label': 'Close' }}
    >
      {car.error ? (
        <ErrorState error={car.error} retry={car.refetch} />
      ) : car.data ? (
        <Whole key={car.data.id} car={car.data} currency={currency} />
      ) : (
        <LoadingState part />
      )}
    </Drawer>
  );
};
