import { Button, Table } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { ReportDefinitionView } from '../../../electron/api/reports/definitions.ts';
import { moneyText } from '../../../valuation/wording/reader.ts';
import { reportTitle } from '../../../valuation/wording/report-title.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { dateText, readerLocale } from '../../components/format.ts';
import { paperNames } from './paper-choice.ts';
import { type ReportChoice, reportInput } from './report-choice.ts';
import classes from './reports.module.css';
import { SaveChoice } from './save-choice.tsx';

const kindName = (wanted: ReportDefinitionView['wanted']): string =>
  'kind' in wanted ? (paperNames[wanted.kind] ?? wanted.kind) : reportTitle('', wanted.lotId !== undefined);

/** Reports by their names: how each is made, to be made again; and those that were saved last. */
export const SavedReports = ({
  choice,
  onChoose,
}: {
  choice: ReportChoice;
  onChoose: (definition: ReportDefinitionView) => void;
}) => {
  const definitions = useQuery({
    queryKey: ['report-definitions'],
    queryFn: () => api.reports.definitions(),
  });
  const kept = useQuery({ queryKey: ['reports-kept'], queryFn: () => api.reports.kept() });
  const remove = useAction((id: number) => api.reports.removeDefinition({ id }), {
    label: 'Report removed from the list',
  });
  return (
    <section className={`page ${classes.others}`} aria-labelledby="saved-reports">
      <h2 id="saved-reports">Saved reports</h2>
      <SaveChoice
        wanted={() => {
          const { on: _, ...wanted } = reportInput(choice);
          return wanted;
        }}
      />
      {definitions.data && definitions.data.length > 0 ? (
        <ul className={classes.definitions} aria-label="Reports by name">
          {definitions.data.map(one => (
            <li key={one.id}>
              <span>
                {one.name} <span className="soft">{kindName(one.wanted)}</span>
              </span>
              <Button size="xs" onClick={() => onChoose(one)} aria-label={`Make ${one.name} again`}>
                Make it again
              </Button>
              <Button
                size="xs"
                variant="subtle"
                onClick={() => remove.mutate(one.id)}
                aria-label={`Remove ${one.name}`}
              >
                Remove
              </Button>
            </li>
          ))}
        </ul>
      ) : null}
      {kept.data && kept.data.length > 0 ? (
        <Table aria-label="Reports saved last" className={classes.kept}>
          <Table.Thead>
            <Table.Tr>
              <Table.Th>Report</Table.Th>
              <Table.Th>Effective</Table.Th>
              <Table.Th>Cars</Table.Th>
              <Table.Th className="amount">Expected in all</Table.Th>
              <Table.Th>SHA-256 of the file</Table.Th>
            </Table.Tr>
          </Table.Thead>
          <Table.Tbody>
            {kept.data.map(report => (
              <Table.Tr key={report.id}>
                <Table.Td>
                  {report.name}{' '}
                  {report.kind === 'collection' ? null : (
                    <span className="soft">{paperNames[report.kind]}</span>
                  )}
                </Table.Td>
                <Table.Td>{dateText(report.effectiveOn)}</Table.Td>
                <Table.Td>{report.cars}</Table.Td>
                <Table.Td className="amount">
                  {report.total === null || report.currency === null
                    ? ''
                    : `${moneyText(report.total, { locale: readerLocale(), currency: report.currency })} ${report.currency}`}
                </Table.Td>
                <Table.Td>
                  <code>{report.sha256}</code>
                </Table.Td>
              </Table.Tr>
            ))}
          </Table.Tbody>
        </Table>
      ) : (
        <p className="soft">No report has been saved yet.</p>
      )}
    </section>
  );
};
