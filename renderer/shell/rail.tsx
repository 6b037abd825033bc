import { Tooltip } from '@mantine/core';
import {
  IconAdjustmentsHorizontal,
  IconBooks,
  IconBox,
  IconCar,
  IconFileText,
  IconHome,
  IconReceipt,
  IconScale,
  IconTool,
} from '@tabler/icons-react';
import type { ComponentType } from 'react';
import { Link, useLocation } from 'wouter';
import { useSummary } from '../api/use-summary.ts';
import { KeyHint } from '../components/keys/key-hint.tsx';
import { useKeys } from '../components/keys/use-keys.ts';
import classes from './shell.module.css';

interface Place {
  to: string;
  label: string;
  icon: ComponentType<{ size?: number; stroke?: number }>;
  count?: 'lots' | 'cars' | 'castings' | 'saleRecords';
}

const places: readonly Place[] = [
  { to: '/', label: 'Home', icon: IconHome },
  { to: '/lots', label: 'Lots', icon: IconBox, count: 'lots' },
  { to: '/cars', label: 'Cars', icon: IconCar, count: 'cars' },
  { to: '/reference', label: 'Reference', icon: IconBooks, count: 'castings' },
  { to: '/sales', label: 'Sale records', icon: IconReceipt, count: 'saleRecords' },
  { to: '/decide', label: 'Decide', icon: IconScale },
  { to: '/bench', label: 'Bench', icon: IconTool },
  { to: '/reports', label: 'Reports', icon: IconFileText },
  { to: '/settings', label: 'Settings', icon: IconAdjustmentsHorizontal },
];

const isAt = (location: string, to: string): boolean =>
  to === '/' ? location === '/' : location === to || location.startsWith(`${to}/`);

/** The name with the three bars that the whole app is about. */
const Wordmark = () => (
  <div className={classes.wordmark}>
    <svg width="17" height="12" viewBox="0 0 17 12" aria-hidden="true">
      <rect x="0" y="0" width="9" height="3" rx="0.5" fill="var(--worth-found)" />
      <rect x="4" y="4.5" width="9" height="3" rx="0.5" fill="var(--worth-restored)" />
      <rect x="8.5" y="9.4" width="8" height="2.2" rx="0.5" fill="none" stroke="var(--worth-original)" />
    </svg>
    <span className={classes.wordmarkName}>Playworn</span>
  </div>
);

/** The places of the app, each with its key and how much lies there. */
export const Rail = () => {
  const [location, navigate] = useLocation();
  const { data: summary } = useSummary();
  useKeys(
    'Places',
    places.map(({ to, label }, index) => ({
      keys: `alt+${index + 1}`,
      does: label,
      run: () => navigate(to),
    })),
  );
  return (
    <nav className={classes.rail} aria-label="Places">
      <ul className={classes.places}>
        {places.map(({ to, label, icon: Icon, count }, index) => (
          <li key={to}>
            <Tooltip label={<KeyHint keys={`alt+${index + 1}`} />} position="right" openDelay={500}>
              <Link
                href={to}
                className={classes.place}
                aria-current={isAt(location, to) ? 'page' : undefined}
              >
                <Icon size={17} stroke={1.6} />
                <span className={classes.placeLabel}>{label}</span>
                {count && summary ? (
                  <span className={classes.count}>{summary.counts[count].toLocaleString()}</span>
                ) : null}
              </Link>
            </Tooltip>
          </li>
        ))}
      </ul>
      <Wordmark />
    </nav>
  );
};
