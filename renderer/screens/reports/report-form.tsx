import { Button, Checkbox, Radio, SegmentedControl, Select, TextInput } from '@mantine/core';
import type { IsoDate, LotRow } from '../../../electron/api/views.ts';
import { type ValueBasis, valueBases } from '../../../valuation/words.ts';
import { basisHelp, formats, type ReportChoice, type ReportFormat, standards } from './report-choice.ts';
import classes from './reports.module.css';

/** The choices of a report, most telling first. */
export const ReportForm = ({
  choice,
  lots,
  today,
  busy,
  onChange,
  onMake,
}: {
  choice: ReportChoice;
  lots: LotRow[];
  today: IsoDate;
  busy: boolean;
  onChange: (next: Partial<ReportChoice>) => void;
  onMake: () => void;
}) => (
  <form
    className={classes.form}
    onSubmit={event => {
      event.preventDefault();
      onMake();
    }}
  >
    <Radio.Group
      label="As"
      value={choice.format}
      onChange={format => onChange({ format: format as ReportFormat })}
    >
      <div className={classes.options}>
        {formats.map(format => (
          <Radio key={format.value} value={format.value} label={format.label} description={format.help} />
        ))}
      </div>
    </Radio.Group>
    <TextInput
      label="Title"
      value={choice.title}
      maxLength={200}
      onChange={event => onChange({ title: event.currentTarget.value })}
    />
    <Radio.Group
      label="Basis of value"
      description="A report states one basis and never adds two together."
      value={choice.basis}
      onChange={basis => onChange({ basis: basis as ValueBasis })}
    >
      <div className={classes.options}>
        {valueBases.map(basis => (
          <Radio
            key={basis}
            value={basis}
            label={basis[0]?.toUpperCase() + basis.slice(1)}
            description={basisHelp[basis]}
          />
        ))}
      </div>
    </Radio.Group>
    <div className={classes.row}>
      <Select
        label="Cars"
        value={choice.lotId === null ? 'all' : String(choice.lotId)}
        data={[
          { value: 'all', label: 'The whole collection' },
          ...lots.map(lot => ({ value: String(lot.id), label: `Lot: ${lot.name}` })),
        ]}
        allowDeselect={false}
        onChange={value => onChange({ lotId: value === null || value === 'all' ? null : Number(value) })}
      />
      <TextInput
        label="Effective date"
        type="date"
        value={choice.on}
        max={today}
        required
        withAsterisk={false}
        onChange={event => {
          if (event.currentTarget.value) onChange({ on: event.currentTarget.value });
        }}
      />
    </div>
    <div className={classes.checks}>
      <Checkbox
        label="Include cars already sold"
        checked={choice.includeSold}
        onChange={event => onChange({ includeSold: event.currentTarget.checked })}
      />
      <Checkbox
        label="Leave out values and prices"
        checked={choice.withoutValues}
        onChange={event => onChange({ withoutValues: event.currentTarget.checked })}
      />
      <Checkbox
        label="Leave out where cars are kept"
        checked={choice.withoutPlaces}
        onChange={event => onChange({ withoutPlaces: event.currentTarget.checked })}
      />
      {choice.format === 'csv' ? null : (
        <Checkbox
          label="Tell what changed since the last report"
          description="Compared with the newest one of the same cars that you saved on an earlier day"
          checked={choice.withChanges}
          onChange={event => onChange({ withChanges: event.currentTarget.checked })}
        />
      )}
      <Checkbox
        label="Say when it was prepared"
        description="Without it, the same report of the same day is the same file"
        checked={choice.sayPrepared}
        onChange={event => onChange({ sayPrepared: event.currentTarget.checked })}
      />
      {choice.format === 'pdf' ? (
        <>
          <Checkbox
            label="Photographs"
            description="Without the place where they were taken"
            checked={choice.withPhotographs}
            onChange={event => onChange({ withPhotographs: event.currentTarget.checked })}
          />
          <SegmentedControl
            aria-label="Paper"
            value={choice.paper}
            data={[
              { value: 'a4', label: 'A4' },
              { value: 'us-letter', label: 'US Letter' },
            ]}
            onChange={paper => onChange({ paper: paper as ReportChoice['paper'] })}
          />
          <Select
            label="Standard"
            value={choice.standard}
            data={standards}
            allowDeselect={false}
            onChange={standard => onChange({ standard: standard as ReportChoice['standard'] })}
          />
        </>
      ) : null}
    </div>
    <div>
      <Button type="submit" variant="filled" size="sm" loading={busy}>
        Make the {choice.format === 'pdf' ? 'PDF' : choice.format === 'csv' ? 'CSV' : 'spreadsheet'}
      </Button>
    </div>
  </form>
);
