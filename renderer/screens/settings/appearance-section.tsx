import { SegmentedControl, useMantineColorScheme } from '@mantine/core';
import { Section } from '../../components/layout/section.tsx';

/** Light, dark, or as the system has it. */
export const AppearanceSection = () => {
  const { colorScheme, setColorScheme } = useMantineColorScheme();
  return (
    <Section id="appearance" title="Appearance" aside="on this computer only">
      <SegmentedControl
        aria-label="Colours"
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
