import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useRef } from 'react';
import type { WorkingOut } from '../../../electron/api/views.ts';
import { counted, readerLocale } from '../format.ts';
import classes from './of-before.module.css';

/** Says that what is shown is from before the last change. */
export const OfBefore = ({ what, workingOut }: { what: string; workingOut: WorkingOut }) => (
  <p className={classes.before} role="status">
    {what} from before the last change. New ones are being worked out:{' '}
    {workingOut.done.toLocaleString(readerLocale())} of {counted(workingOut.of, 'car')}.
  </p>
);

/** Asked again so often while the service works new figures out. */
const whileWorkingOut = 1000;

/** For a query whose answer says how far new figures are: asks again until they are there. */
export const untilWorkedOut = ({
  state,
}: {
  state: { data?: { workingOut: WorkingOut | null } | undefined };
}): number | false => (state.data?.workingOut ? whileWorkingOut : false);

/** Reads all again that begins with this key, once the new figures are there. */
export const useWhenWorkedOut = (key: string, workingOut: WorkingOut | null | undefined): void => {
  const client = useQueryClient();
  const was = useRef(false);
  const isOfBefore = Boolean(workingOut);
  useEffect(() => {
    if (was.current && !isOfBefore) void client.invalidateQueries({ queryKey: [key] });
    was.current = isOfBefore;
  }, [client, key, isOfBefore]);
};
