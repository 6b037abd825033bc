import { useKeys } from '../../../components/keys/use-keys.ts';
import { BeginActions } from '../../../components/layout/begin-actions.tsx';
import { EmptyState } from '../../../components/layout/empty-state.tsx';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { NewCarButton, useNewCar } from './cars-header.tsx';

/** What the list says before there is a car. */
export const NoCars = () => {
  const newCar = useNewCar();
  useKeys('Cars', [{ keys: 'N', does: 'New car', run: newCar.add }]);
  return (
    <>
      <PageHeader title="Cars" facts="none yet" />
      <EmptyState
        title="No cars yet"
        actions={
          <>
            <BeginActions />
            <NewCarButton {...newCar} />
          </>
        }
      >
        Import your list as it is: half of a row is worth having. Or enter a lot, which is what you bought
        together for one price, or a single car.
      </EmptyState>
    </>
  );
};
