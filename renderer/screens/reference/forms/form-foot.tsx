import { Button } from '@mantine/core';
import type { ReactNode } from 'react';
import classes from '../reference.module.css';

/** The foot of a form: leave it as it was, or send it off; `children` stand before both. */
export const FormFoot = ({
  submit,
  disabled,
  loading,
  onClose,
  children,
}: {
  submit: string;
  disabled?: boolean;
  loading: boolean;
  onClose: () => void;
  children?: ReactNode;
}) => (
  <div className={classes.formFoot}>
    {children}
    <Button onClick={onClose}>Cancel</Button>
    <Button type="submit" variant="filled" disabled={disabled} loading={loading}>
      {submit}
    </Button>
  </div>
);
