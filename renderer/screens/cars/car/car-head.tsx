import { ActionIcon, Menu } from '@mantine/core';
import { IconChevronLeft, IconChevronRight, IconDots } from '@tabler/icons-react';
import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { CarPage } from '../../../../electron/api/views.ts';
import { carTitle } from '../../../../valuation/wording/cars/car-names.ts';
import { statusText } from '../../../../valuation/wording/cars/status-text.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { FinishState } from '../../../components/marks/finish-state.tsx';
import classes from './car.module.css';
import { CarPaper, type CarPaperKind, PaperItems } from './paper-items.tsx';

const Facts = ({ car }: { car: CarPage }) => (
  <span className={classes.facts}>
    <strong>{car.inventoryNumber}</strong>
    {car.casting && car.casting !== carTitle(car) ? <span>casting {car.casting}</span> : null}
    {car.series ? <span>{car.series}</span> : null}
    {car.releaseYear ? <span>{car.releaseYear}</span> : null}
    <FinishState state={car.finishState} />
    {car.isSeen ? (
      <span className={classes.status}>{statusText('seen')}</span>
    ) : car.status === 'kept' ? null : (
      <span className={classes.status}>{car.status}</span>
    )}
  </span>
);

const Walk = ({ to, label, children }: { to: number | null; label: string; children: React.ReactNode }) =>
  to === null ? (
    <ActionIcon aria-label={label} disabled>
      {children}
    </ActionIcon>
  ) : (
    <ActionIcon component={Link} href={`/${to}`} aria-label={label} title={label}>
      {children}
    </ActionIcon>
  );

const Actions = ({ car }: { car: CarPage }) => {
  const [, navigate] = useLocation();
  const [paper, setPaper] = useState<CarPaperKind | null>(null);
  const remove = useAction(() => api.cars.remove({ ids: [car.id] }), {
    label: `${car.inventoryNumber} removed`,
    thenGo: () => navigate(car.nextId ? `/${car.nextId}` : '/', { replace: true }),
  });
  return (
    <>
      <Walk to={car.previousId} label="Previous car (K)">
        <IconChevronLeft size={18} stroke={1.75} />
      </Walk>
      <Walk to={car.nextId} label="Next car (J)">
        <IconChevronRight size={18} stroke={1.75} />
      </Walk>
      <Menu position="bottom-end">
        <Menu.Target>
          <ActionIcon aria-label="More for this car">
            <IconDots size={18} stroke={1.75} />
          </ActionIcon>
        </Menu.Target>
        <Menu.Dropdown>
          {car.castingId === null ? null : (
            <>
              <Menu.Item component={Link} href={`~/reference/${car.castingId}`}>
                Its casting in the reference
              </Menu.Item>
              <Menu.Item component={Link} href={`~/cars?casting=${car.castingId}`}>
                All cars of its casting
              </Menu.Item>
            </>
          )}
          <PaperItems onChoose={setPaper} />
          <Menu.Item color="brick" onClick={() => remove.mutate()}>
            Remove this car
          </Menu.Item>
        </Menu.Dropdown>
      </Menu>
      <CarPaper key={`${car.id} ${paper}`} carId={car.id} kind={paper} onClose={() => setPaper(null)} />
    </>
  );
};

/** What stands at the head of a car's page. */
export const CarHead = { Facts, Actions };
