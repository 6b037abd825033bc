import { Button } from '@mantine/core';
import { Link } from 'wouter';
import { useKeys } from '../../../components/keys/use-keys.ts';
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
            <Button component={Link} href="~/lots/new" variant="filled">
              Enter a lot
            </Button>
            <Button component={Link} href="~/lots/import">
              Import a spreadsheet
            </Button>
            <NewCarButton {...newCar} />
          </>
        }
      >
        Cars are entered by lot: what you bought together for one price. You can also add a single car.
      </EmptyState>
    </>
  );
};
