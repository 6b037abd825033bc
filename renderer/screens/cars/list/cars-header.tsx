import { Button, SegmentedControl } from '@mantine/core';
import { IconLayoutGrid, IconList } from '@tabler/icons-react';
import type { ReactNode } from 'react';
import { Link, useLocation } from 'wouter';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { counted, readerLocale } from '../../../components/format.ts';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { WorthLegend } from '../../../components/worth-strip/worth-axis.tsx';
import classes from './list.module.css';
import type { ListPlace } from './use-list-address.ts';
import { isWallOrder, wallOrders } from './wall-order.ts';

export interface NewCar {
  add: () => void;
  adding: boolean;
}

/** Adds a car of no lot, and opens its page to say what it is. */
export const useNewCar = (): NewCar => {
  const [, navigate] = useLocation();
  const { mutate, isPending } = useAction(() => api.cars.create({ lotId: null, cars: [{}] }), {
    label: 'Car added',
    thenGo: ({ ids }) => navigate(`/${ids[0]}`),
  });
  return { add: () => (isPending ? undefined : mutate()), adding: isPending };
};

export const NewCarButton = ({ add, adding }: NewCar) => (
  <Button loading={adding} onClick={add}>
    New car
  </Button>
);

/** The head of the list: grid or wall, the wall's order, and a new car. */
export const CarsHeader = ({
  cars,
  unread,
  wall,
  order,
  onGo,
  newCar,
  views,
}: Pick<ListPlace, 'wall' | 'order'> & {
  cars: number;
  /** How many of them have something that is not understood. */
  unread: number;
  onGo: (next: Partial<ListPlace>) => void;
  newCar: NewCar;
  /** Saved views and columns. */
  views: ReactNode;
}) => (
  <PageHeader
    title="Cars"
    facts={
      <>
        {counted(cars, 'car')} entered
        {unread > 0 ? (
          <>
            {' · '}
            <Link href="~/cars?show=not-understood" className="caution">
              {unread.toLocaleString(readerLocale())} with something not understood
            </Link>
            {' · '}
            <Link href="~/not-understood">say what it means</Link>
          </>
        ) : null}
      </>
    }
    actions={
      <>
        <WorthLegend />
        {wall ? (
          <select
            className={classes.order}
            aria-label="Order of the wall"
            value={order}
            onChange={event => {
              const next = event.currentTarget.value;
              if (isWallOrder(next)) onGo({ order: next });
            }}
          >
            {Object.entries(wallOrders).map(([value, label]) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </select>
        ) : null}
        <SegmentedControl
          aria-label="Show as"
          value={wall ? 'wall' : 'grid'}
          onChange={value => onGo({ wall: value === 'wall' })}
          data={[
            { value: 'grid', label: <Label icon={<IconList size={14} />} text="Grid" /> },
            { value: 'wall', label: <Label icon={<IconLayoutGrid size={14} />} text="Photo wall" /> },
          ]}
        />
        {views}
        <NewCarButton {...newCar} />
      </>
    }
  />
);

const Label = ({ icon, text }: { icon: ReactNode; text: string }) => (
  <span className={classes.view}>
    {icon}
    {text}
  </span>
);
