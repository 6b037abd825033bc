import { Link } from 'wouter';
import type { VariationRow } from '../../../../electron/api/views.ts';
import { type BasePaint, type VariationFeature, variationFeatures } from '../../../../valuation/words.ts';
import type { GridColumn } from '../../../components/data-grid/types.ts';
import { LacquerChip } from '../../../components/lacquer-chip/lacquer-chip.tsx';
import { readerWords } from '../../../components/words.ts';
import classes from '../reference.module.css';

const featureColumn = (feature: VariationFeature): GridColumn<VariationRow> => ({
  id: feature,
  title: readerWords().features[feature],
  width: feature === 'bodyFinish' ? 104 : 86,
  grow: 1,
  value: row => row.features[feature],
  render: row => (
    <span className={classes.cell} title={row.features[feature]}>
      {row.features[feature]}
    </span>
  ),
});

const rarityOrder = { common: 0, uncommon: 1, scarce: 2, rare: 3 };

const counted = (id: 'cars' | 'saleRecords', title: string, to: string): GridColumn<VariationRow> => ({
  id,
  title,
  width: 52,
  align: 'end',
  value: row => row[id],
  render: row =>
    row[id] === 0 ? (
      <span className="soft">–</span>
    ) : (
      <Link
        href={`~${to}?variation=${row.id}`}
        tabIndex={-1}
        aria-label={`${row[id]} ${title.toLowerCase()} of ${row.label}`}
      >
        {row[id]}
      </Link>
    ),
});

/** The columns of a casting's variations: only features in which they differ, or all that a lone one has. */
export const variationColumns = (
  rows: readonly VariationRow[],
  castingName: string,
): GridColumn<VariationRow>[] => {
  const told = variationFeatures.filter(
    feature =>
      feature !== 'colour' &&
      rows.some(row => row.features[feature] !== (rows.length > 1 ? rows[0]?.features[feature] : '')),
  );
  const renamed = rows.some(row => row.releaseName !== castingName);
  return [
    {
      id: 'colour',
      title: readerWords().features.colour,
      width: 124,
      grow: 1,
      pinned: true,
      value: row => row.features.colour,
      render: row => (
        <LacquerChip
          name={row.features.colour}
          swatch={row.swatch}
          basePaint={row.features.basePaint as BasePaint | ''}
        />
      ),
    },
    {
      id: 'rarity',
      title: 'Rarity',
      width: 76,
      value: row => (row.rarity ? rarityOrder[row.rarity] : null),
      text: row => row.rarity ?? '',
      render: row => (
        <span className={classes.rarity} data-rarity={row.rarity}>
          {row.rarity}
        </span>
      ),
    },
    counted('cars', 'Yours', '/cars'),
    counted('saleRecords', 'Sales', '/sales'),
    ...told.map(featureColumn),
    {
      id: 'release',
      title: 'Release',
      width: renamed ? 108 : 60,
      ...(renamed && { grow: 1 }),
      value: row => `${row.releaseYear ?? ''} ${row.releaseName}`,
      render: row => (
        <span className={classes.cell}>
          {row.releaseYear ?? ''} {row.releaseName === castingName ? '' : row.releaseName}
        </span>
      ),
    },
  ];
};
