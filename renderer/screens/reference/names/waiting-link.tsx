import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'wouter';
import { api } from '../../../api/client.ts';

/** How many names wait; none until that is known. */
export const useWaitingCount = (): number =>
  useQuery({ queryKey: ['names'], queryFn: () => api.names.waiting() }).data?.names.length ?? 0;

/** To the names that wait to be settled; nothing where none waits. */
export const WaitingLink = ({ filled = false }: { filled?: boolean }) => {
  const number = useWaitingCount();
  if (number === 0) return null;
  return (
    <Button component={Link} href="~/reference/names" variant={filled ? 'filled' : 'default'}>
      {number === 1 ? 'Settle 1 name that waits' : `Settle ${number.toLocaleString()} names that wait`}
    </Button>
  );
};

/** How many variations were seen that the reference lacks; none until that is known. */
export const useSeenCount = (): number =>
  useQuery({ queryKey: ['variations seen'], queryFn: () => api.names.seen() }).data?.length ?? 0;

/** To the variations that were seen; nothing where there is none. */
export const SeenLink = ({ filled = false }: { filled?: boolean }) => {
  const number = useSeenCount();
  if (number === 0) return null;
  return (
    <Button component={Link} href="~/reference/seen" variant={filled ? 'filled' : 'default'}>
      {number === 1 ? 'Settle 1 variation seen' : `Settle ${number.toLocaleString()} variations seen`}
    </Button>
  );
};
