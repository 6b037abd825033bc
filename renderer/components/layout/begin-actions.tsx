import { Button } from '@mantine/core';
import { Link } from 'wouter';

/** The two ways in which a collection begins. */
export const BeginActions = () => (
  <>
    <Button component={Link} href="~/lots/import" variant="filled">
      Import your list
    </Button>
    <Button component={Link} href="~/lots/new">
      Enter a lot
    </Button>
  </>
);
