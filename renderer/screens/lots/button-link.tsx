import { Button } from '@mantine/core';
import type { ReactNode } from 'react';
import { Link } from 'wouter';
import classes from './lots.module.css';

/** A link to another screen that looks like what it is: the next thing to do. */
export const ButtonLink = ({
  href,
  primary = false,
  children,
}: {
  href: string;
  primary?: boolean;
  children: ReactNode;
}) => (
  <Button component={Link} className={classes.button} href={href} variant={primary ? 'filled' : 'default'}>
    {children}
  </Button>
);
