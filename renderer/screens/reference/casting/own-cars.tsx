import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import { api } from '../../../api/client.ts';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { Section } from '../../../components/layout/section.tsx';
import { GradeBadge } from '../../../components/marks/grade-badge.tsx';
import { Photo } from '../../../components/photo/photo.tsx';
import classes from '../reference.module.css';

const maxCars = 12;

/** The owner's own cars of a casting, as they look. */
export const OwnCars = ({ castingId }: { castingId: number }) => {
  const { data: cars, isPending } = useQuery({
    queryKey: ['cars of casting', castingId],
    queryFn: () => api.cars.list({ castingId, includeSold: false }),
  });
  if (isPending) return <LoadingState part />;
  if (!cars || cars.length === 0) return null;
  return (
    <Section
      title="Yours"
      aside={<Link href={`~/cars?casting=${castingId}`}>{`${cars.length} in the list of cars`}</Link>}
    >
      <ul className={classes.ownCars}>
        {cars.slice(0, maxCars).map(car => (
          <li key={car.id}>
            <Link href={`~/cars/${car.id}`} className={classes.ownCar}>
              <Photo sha256={car.photo} size="screen" alt="" height={92} />
              <span className={classes.ownLine}>
                <span>{car.inventoryNumber}</span>
                <GradeBadge grade={car.grade} finishState={car.finishState} />
              </span>
              <span className={classes.ownUnder}>{car.variation ?? 'no variation chosen'}</span>
            </Link>
          </li>
        ))}
      </ul>
    </Section>
  );
};
