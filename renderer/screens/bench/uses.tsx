import { ActionIcon, Button, NativeSelect, NumberInput, TextInput } from '@mantine/core';
import { IconX } from '@tabler/icons-react';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { JobView, PartStock } from '../../../electron/api/views.ts';
import { type Originality, originalities, type PartName, partNames } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { useSummary } from '../../api/use-summary.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { amountText } from '../../components/format.ts';
import { MoneyInput } from '../../components/inputs/money-input.tsx';
import { readerWords } from '../../components/words.ts';
import classes from './bench.module.css';
import { PlannedMaterials } from './planned-materials.tsx';

type Fitted = Exclude<Originality, 'missing'>;
const fittable = originalities.filter((one): one is Fitted => one !== 'missing');

const AddMaterial = ({ job, currency, onDone }: { job: JobView; currency: string; onDone: () => void }) => {
  const [name, setName] = useState('');
  const [minor, setMinor] = useState<number | null>(null);
  const add = useAction(
    () => api.bench.addMaterial({ jobId: job.id, name: name.trim(), minor: minor ?? 0, currency }),
    { label: `${name.trim()} used`, onDone },
  );
  return (
    <form
      className={classes.useForm}
      onSubmit={event => {
        event.preventDefault();
        if (name.trim() !== '') add.mutate();
      }}
    >
      <TextInput
        label="Material"
        value={name}
        maxLength={200}
        onChange={event => setName(event.currentTarget.value)}
      />
      <MoneyInput label={`Cost, ${currency}`} currency={currency} value={minor} onChange={setMinor} asTyped />
      <Button type="submit" variant="filled" disabled={name.trim() === ''} loading={add.isPending}>
        Add the material
      </Button>
    </form>
  );
};

const AddPart = ({ job, currency, onDone }: { job: JobView; currency: string; onDone: () => void }) => {
  const shelf = useQuery({ queryKey: ['parts'], queryFn: () => api.collection.parts() });
  const donors = useQuery({ queryKey: ['donors'], queryFn: () => api.bench.donors() });
  const [from, setFrom] = useState<'shelf' | 'donor' | 'bought'>('shelf');
  const [shelfId, setShelfId] = useState('');
  const [donorId, setDonorId] = useState('');
  const [name, setName] = useState('');
  const [part, setPart] = useState<PartName | ''>('');
  const [originality, setOriginality] = useState<Fitted>('reproduction');
  const [quantity, setQuantity] = useState<number | string>(1);
  const [minor, setMinor] = useState<number | null>(null);
  const stock = (shelf.data ?? []).filter(({ inStock }) => inStock > 0);
  const chosen: PartStock | undefined = stock.find(({ id }) => String(id) === shelfId);
  const donor = (donors.data ?? []).find(({ id }) => String(id) === donorId);
  const many = typeof quantity === 'number' ? Math.round(quantity) : 0;
  const called = from === 'shelf' ? (chosen?.name ?? '') : name.trim() || part;
  const ready =
    many > 0 &&
    called !== '' &&
    (from !== 'donor' || donor !== undefined) &&
    (from !== 'shelf' || many <= (chosen?.inStock ?? 0));
  const add = useAction(
    () =>
      api.bench.addPart({
        jobId: job.id,
        name: called,
        part,
        originality,
        shelfId: from === 'shelf' ? (chosen?.id ?? null) : null,
        donorCarId: from === 'donor' ? (donor?.id ?? null) : (chosen?.donorCarId ?? null),
        quantity: many,
        minor: from === 'shelf' ? (chosen?.unit ?? 0) * many : (minor ?? 0),
        currency: (from === 'shelf' && chosen?.currency) || currency,
      }),
    { label: `${called} fitted`, onDone },
  );
  const { spell } = readerWords();
  return (
    <form
      className={classes.useForm}
      onSubmit={event => {
        event.preventDefault();
        if (ready) add.mutate();
      }}
    >
      <NativeSelect
        label="From"
        value={from}
        onChange={event => {
          const next = event.currentTarget.value as typeof from;
          setFrom(next);
          setOriginality(next === 'donor' ? 'original' : 'reproduction');
        }}
        data={[
          { value: 'shelf', label: 'the shelf' },
          { value: 'donor', label: 'a donor car' },
          { value: 'bought', label: 'bought for this car' },
        ]}
      />
      {from === 'shelf' ? (
        <NativeSelect
          label="Part on the shelf"
          value={shelfId}
          onChange={event => {
            const id = event.currentTarget.value;
            setShelfId(id);
            const found = stock.find(one => String(one.id) === id);
            if (found?.part) setPart(found.part);
            if (found?.originality) setOriginality(found.originality);
          }}
          data={[
            { value: '', label: stock.length === 0 ? 'nothing is on the shelf' : 'choose' },
            ...stock.map(({ id, name: label, inStock }) => ({
              value: String(id),
              label: `${label} (${inStock})`,
            })),
          ]}
        />
      ) : null}
      {from === 'donor' ? (
        <NativeSelect
          label="Donor car"
          value={donorId}
          onChange={event => setDonorId(event.currentTarget.value)}
          data={[
            { value: '', label: donors.data?.length === 0 ? 'no car is a donor yet' : 'choose' },
            ...(donors.data ?? []).map(car => ({
              value: String(car.id),
              label: `${car.inventoryNumber} ${car.casting ?? ''}`,
            })),
          ]}
        />
      ) : null}
      <NativeSelect
        label="Which part it is"
        value={part}
        onChange={event => setPart(event.currentTarget.value as PartName | '')}
        data={[{ value: '', label: 'another' }, ...partNames.map(one => ({ value: one, label: spell(one) }))]}
      />
      {from === 'shelf' ? null : (
        <TextInput
          label="Name"
          placeholder={part}
          value={name}
          maxLength={200}
          onChange={event => setName(event.currentTarget.value)}
        />
      )}
      <NativeSelect
        label="Origin"
        value={originality}
        onChange={event => setOriginality(event.currentTarget.value as Fitted)}
        data={fittable.map(one => ({ value: one, label: spell(one) }))}
      />
      <NumberInput
        label="How many"
        value={quantity}
        min={1}
        max={1000}
        allowDecimal={false}
        onChange={setQuantity}
      />
      {from === 'bought' ? (
        <MoneyInput
          label={`Cost, ${currency}`}
          currency={currency}
          value={minor}
          onChange={setMinor}
          asTyped
        />
      ) : null}
      <Button type="submit" variant="filled" disabled={!ready} loading={add.isPending}>
        Add the part
      </Button>
    </form>
  );
};

/** What was used up and fitted on a job: materials, and parts from the shelf, from a donor, or bought. */
export const Uses = ({ job, disabled }: { job: JobView; disabled: boolean }) => {
  const summary = useSummary();
  const donors = useQuery({ queryKey: ['donors'], queryFn: () => api.bench.donors() });
  const [adding, setAdding] = useState<'material' | 'part' | null>(null);
  const currency = summary.data?.reportingCurrency ?? 'USD';
  const remove = useAction(
    (use: JobView['uses'][number]) =>
      api.bench.removeUse({ jobId: job.id, useId: use.id, is: use.part ? 'part' : 'material' }),
    { label: use => `Removed ${use.name} from this job` },
  );
  const numberOf = (id: number | null) => donors.data?.find(car => car.id === id)?.inventoryNumber;
  const close = () => setAdding(null);
  return (
    <section className={classes.block} aria-label="Materials and parts used">
      <h3>Materials and parts used</h3>
      {job.uses.length === 0 ? <p className={classes.soft}>Nothing is written down yet.</p> : null}
      <ul className={classes.uses}>
        {job.uses.map(use => (
          <li key={`${use.part ? 'part' : 'material'}-${use.id}`}>
            <span>
              {use.part && use.part.quantity > 1 ? `${use.part.quantity} × ` : ''}
              {use.name}
              {use.part ? (
                <span className={classes.soft}>
                  {' '}
                  {readerWords().spell(use.part.originality)}
                  {use.part.donorCarId === null
                    ? use.part.shelfId === null
                      ? ''
                      : ', from the shelf'
                    : `, from ${numberOf(use.part.donorCarId) ?? 'a donor'}`}
                </span>
              ) : null}
            </span>
            <span className={classes.useCost}>
              {use.minor > 0 ? `${amountText(use.minor, use.currency)} ${use.currency}` : ''}
            </span>
            {disabled ? null : (
              <ActionIcon aria-label={`Remove ${use.name} from this job`} onClick={() => remove.mutate(use)}>
                <IconX size={14} />
              </ActionIcon>
            )}
          </li>
        ))}
      </ul>
      {disabled ? null : (
        <div className={classes.useButtons}>
          <Button
            aria-expanded={adding === 'part'}
            onClick={() => setAdding(adding === 'part' ? null : 'part')}
          >
            Part…
          </Button>
          <Button
            aria-expanded={adding === 'material'}
            onClick={() => setAdding(adding === 'material' ? null : 'material')}
          >
            Material…
          </Button>
        </div>
      )}
      {adding === 'part' ? <AddPart job={job} currency={currency} onDone={close} /> : null}
      {adding === 'material' ? (
        <>
          <PlannedMaterials job={job} currency={currency} />
          <AddMaterial job={job} currency={currency} onDone={close} />
        </>
      ) : null}
    </section>
  );
};
