import { Drawer, Select, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import type { CastingPage, VariationRow } from '../../../../electron/api/views.ts';
import {
  type BasePaint,
  basePaints,
  type Rarity,
  rarities,
  type VariationFeature,
  variationFeatures,
} from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { NotesField } from '../../../components/inputs/notes-field.tsx';
import { TypeAhead } from '../../../components/inputs/type-ahead.tsx';
import { YearField } from '../../../components/inputs/year-field.tsx';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { readerWords } from '../../../components/words.ts';
import classes from '../reference.module.css';
import { SwatchButton } from '../swatch-button.tsx';
import { choicesOf, type VariationDraft, variationDraft } from './drafts.ts';
import { FormFoot } from './form-foot.tsx';
import { RemoveVariation } from './remove-variation.tsx';
import { SameVariation } from './same-variation.tsx';
import { VariationPhotos } from './variation-photos.tsx';

type Set = (change: Partial<VariationDraft>) => void;

const ColourField = ({ draft, set }: { draft: VariationDraft; set: Set }) => {
  const { data: colours } = useQuery({ queryKey: ['colours'], queryFn: () => api.reference.colours() });
  const choices = useMemo(
    () =>
      (colours ?? []).map(({ name, swatch }) => ({
        value: name,
        label: name,
        mark: <LacquerChip name="" swatch={swatch} nameless />,
      })),
    [colours],
  );
  const name = draft.features.colour;
  const known = colours?.find(colour => colour.name.toLowerCase() === name.toLowerCase());
  return (
    <div className={classes.colourField}>
      <TypeAhead
        label={readerWords().features.colour}
        value={name}
        choices={choices}
        freeText
        autoFocus
        onPick={({ label }) => set({ features: { ...draft.features, colour: label } })}
        onClear={() => set({ features: { ...draft.features, colour: '' } })}
      />
      {name ? <SwatchButton key={name} colour={known ?? { name, swatch: null }} /> : null}
    </div>
  );
};

const FeatureField = ({
  feature,
  casting,
  draft,
  set,
}: {
  feature: VariationFeature;
  casting: CastingPage;
  draft: VariationDraft;
  set: Set;
}) => {
  const values = casting.featureValues.find(entry => entry.feature === feature)?.values;
  const choices = useMemo(() => choicesOf(values ?? []), [values]);
  const change = (value: string) => set({ features: { ...draft.features, [feature]: value } });
  if (feature === 'basePaint')
    return (
      <Select
        label={readerWords().features[feature]}
        value={draft.features.basePaint || null}
        data={[...basePaints] satisfies BasePaint[]}
        placeholder="not known"
        clearable
        clearButtonProps={{ 'aria-label': 'Base paint not known' }}
        onChange={value => change(value ?? '')}
      />
    );
  return (
    <TypeAhead
      label={readerWords().features[feature]}
      value={draft.features[feature]}
      choices={choices}
      freeText
      onPick={({ label }) => change(label)}
      onClear={() => change('')}
    />
  );
};

const Form = ({
  casting,
  variation,
  onClose,
}: {
  casting: CastingPage;
  variation: VariationRow | null;
  onClose: () => void;
}) => {
  const [draft, setDraft] = useState(() => variationDraft(casting, variation));
  const set: Set = change => setDraft(before => ({ ...before, ...change }));
  const releases = useMemo(
    () =>
      casting.releaseRows.map(release => ({
        value: String(release.id),
        label: release.name,
        detail: [release.year, release.changedPart].filter(Boolean).join(' · '),
      })),
    [casting.releaseRows],
  );
  const save = useAction((input: VariationDraft) => api.reference.saveVariation(input), {
    label: input =>
      `${input.features.colour || 'Variation'} of ${casting.name} ${variation ? 'changed' : 'added'}`,
    onDone: onClose,
  });
  return (
    <form
      className={classes.form}
      onSubmit={event => {
        event.preventDefault();
        if (draft.releaseName.trim()) save.mutate(draft);
      }}
    >
      <ColourField draft={draft} set={set} />
      <div className={classes.pair}>
        {variationFeatures
          .filter(feature => feature !== 'colour')
          .map(feature => (
            <FeatureField key={feature} feature={feature} casting={casting} draft={draft} set={set} />
          ))}
        <Select
          label="Rarity"
          value={draft.rarity}
          data={[...rarities]}
          placeholder="not known"
          clearable
          clearButtonProps={{ 'aria-label': 'Rarity not known' }}
          onChange={rarity => set({ rarity: rarity as Rarity | null })}
        />
        <TypeAhead
          label="Released as"
          value={draft.releaseName}
          choices={releases}
          freeText
          onPick={({ value, label }) => {
            const release = casting.releaseRows.find(({ id }) => String(id) === value);
            set({ releaseName: label, ...(release && { releaseYear: release.year }) });
          }}
        />
        <YearField
          label="In the year"
          value={draft.releaseYear}
          onChange={year => set({ releaseYear: year })}
        />
      </div>
      <NotesField
        label="Factory specification"
        description="What a faithful restoration follows"
        minRows={2}
        maxRows={10}
        value={draft.factorySpecification}
        onChange={text => set({ factorySpecification: text })}
      />
      <div className={classes.pair}>
        <TextInput
          label="Base and its paint, in words"
          placeholder="front third, up to the axle …"
          maxLength={200}
          value={draft.baseWords}
          onChange={event => set({ baseWords: event.currentTarget.value })}
        />
        <TextInput
          label="Sizes of the wheels, front and rear"
          maxLength={200}
          value={draft.wheelSizes}
          onChange={event => set({ wheelSizes: event.currentTarget.value })}
        />
      </div>
      <NotesField value={draft.notes} onChange={text => set({ notes: text })} />
      {variation ? <VariationPhotos variation={variation} /> : null}
      {variation ? <SameVariation casting={casting} variation={variation} onMerged={onClose} /> : null}
      <FormFoot
        submit={variation ? 'Save' : 'Add the variation'}
        disabled={!draft.releaseName.trim()}
        loading={save.isPending}
        onClose={onClose}
      >
        {variation ? <RemoveVariation variation={variation} onRemoved={onClose} /> : null}
      </FormFoot>
    </form>
  );
};

/** The form of a variation beside the page: a new one, or one that is changed. */
export const VariationForm = ({ opened, ...form }: { opened: boolean } & Parameters<typeof Form>[0]) => (
  <Drawer
    opened={opened}
    onClose={form.onClose}
    position="right"
    size={460}
    title={form.variation ? form.variation.label : `Add a variation of ${form.casting.name}`}
    closeButtonProps={{ 'aria-label': 'Close' }}
  >
    <Form key={form.variation?.id ?? 'new'} {...form} />
  </Drawer>
);
