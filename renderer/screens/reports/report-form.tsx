import { Button, Checkbox, Radio, SegmentedControl, Select, TextInput } from '@mantine/core';
import type { IsoDate, LotRow } from '../../../electron/api/views.ts';
import { type ValueBasis, valueBases } from '../../../valuation/words.ts';
import { basisHelp, formats, type ReportChoice, type ReportFormat, standards } from './report-choice.ts';
import classes from './reports.module.css';

interface Choosing {
  choice: ReportChoice;
  onChange: (next: Partial<ReportChoice>) => void;
}

/** What a PDF has beside the lists: photographs, its paper and its standard. */
const PdfChoices = ({ choice, onChange }: Choosing) => (
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
);

/** What the report leaves out, and what it says besides. */
const ContentChoices = ({ choice, onChange }: Choosing) => (
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
    {choice.format === 'pdf' ? <PdfChoices choice={choice} onChange={onChange} /> : null}
  </div>
);

const BasisChoice = ({ basis, onChange }: { basis: ValueBasis; onChange: Choosing['onChange'] }) => (
  <Radio.Group
    label="Basis of value"
    description="A report states one basis and never adds two together."
    value={basis}
    onChange={next => onChange({ basis: next as ValueBasis })}
  >
    <div className={classes.options}>
      {valueBases.map(one => (
        <Radio
          key={one}
          value={one}
          label={one[0]?.toUpperCase() + one.slice(1)}
          description={basisHelp[one]}
        />
      ))}
    </div>
  </Radio.Group>
);

/** The choices of a report, most telling first. */
export const ReportForm = ({
  choice,
  lots,
  today,
  busy,
  onChange,
  onMake,
}: Choosing & {
  lots: LotRow[];
  today: IsoDate;
  busy: boolean;
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
    <BasisChoice basis={choice.basis} onChange={onChange} />
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
    <ContentChoices choice={choice} onChange={onChange} />
    <div>
      <Button type="submit" variant="filled" size="sm" loading={busy}>
        Make the {choice.format === 'pdf' ? 'PDF' : choice.format === 'csv' ? 'CSV' : 'spreadsheet'}
      </Button>
    </div>
  </form>
);
