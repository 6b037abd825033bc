import { SegmentedControl, useMantineColorScheme } from '@mantine/core';
import { sentenceCase } from '../../../valuation/wording/reader.ts';
import { Section } from '../../components/layout/section.tsx';
import { readerWords } from '../../components/words.ts';

/** Light, dark, or as the system has it. */
export const AppearanceSection = () => {
  const { colorScheme, setColorScheme } = useMantineColorScheme();
  return (
    <Section id="appearance" title="Appearance" aside="on this computer only">
      <SegmentedControl
        aria-label={sentenceCase(readerWords().dialect.colours)}
        value={colorScheme}
        data={[
          { value: 'light', label: 'Light' },
          { value: 'dark', label: 'Dark' },
          { value: 'auto', label: 'As the system' },
        ]}
        onChange={value => setColorScheme(value as typeof colorScheme)}
      />
    </Section>
  );
};
