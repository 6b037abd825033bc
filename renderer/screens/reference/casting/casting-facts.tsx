import { Button } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import type { CastingPage } from '../../../../electron/api/views.ts';
import { ReleaseForm } from '../forms/release-form.tsx';
import classes from '../reference.module.css';

const Fact = ({ name, children }: { name: string; children: ReactNode }) =>
  children ? (
    <>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </>
  ) : null;

const Releases = ({ casting }: { casting: CastingPage }) => {
  const [edited, setEdited] = useState<number | null>(null);
  return (
    <div>
      <h3>Releases</h3>
      <ul className={classes.releases}>
        {casting.releaseRows.map(release => (
          <li key={release.id}>
            <span className="tabular">{release.year ?? '–'}</span>
            <span>
              {release.name}
              {release.changedPart ? (
                <span className={classes.changedPart}>changed: {release.changedPart}</span>
              ) : null}
              {release.notes ? <span className={classes.releaseNote}>{release.notes}</span> : null}
            </span>
            <Button
              variant="subtle"
              size="compact-xs"
              aria-label={`Edit the release ${release.name} ${release.year ?? ''}`}
              onClick={() => setEdited(release.id)}
            >
              Edit
            </Button>
          </li>
        ))}
      </ul>
      <ReleaseForm
        casting={casting}
        release={casting.releaseRows.find(({ id }) => id === edited) ?? null}
        onClose={() => setEdited(null)}
      />
    </div>
  );
};

/** What is known of a casting: its make, its parts, and under which names it was sold. */
export const CastingFacts = ({ casting }: { casting: CastingPage }) => (
  <div className={classes.facts}>
    <div>
      <h3>Casting</h3>
      <dl className={classes.factList}>
        <Fact name="Body">{casting.bodyType}</Fact>
        <Fact name="Length">{casting.lengthMm === null ? null : `${casting.lengthMm} mm`}</Fact>
        <Fact name="Materials">{casting.materials}</Fact>
        <Fact name="Put together by">{casting.assembly}</Fact>
        <Fact name="Bearings">{casting.bearings}</Fact>
        <Fact name="Markings">{casting.markings}</Fact>
        <Fact name="Notes">{casting.notes}</Fact>
      </dl>
    </div>
    {casting.parts.length > 0 ? (
      <div>
        <h3>Parts</h3>
        <dl className={classes.factList}>
          {casting.parts.map(({ part, detail, lookAt }) => (
            <Fact key={part} name={part}>
              {[detail, lookAt && `look at ${lookAt}`].filter(Boolean).join('; ') || '–'}
            </Fact>
          ))}
        </dl>
      </div>
    ) : null}
    {casting.releaseRows.length > 0 ? <Releases casting={casting} /> : null}
  </div>
);
