/**
 * The styles of what is used of Mantine, in the order in which they stand in its own sheet. The whole sheet has
 * some ninety rules that end in no class of their own, and so are tried on every element that a list draws
 * (`mantine-styles.test.ts` finds a style that is missing).
 */
import '@mantine/core/styles/baseline.layer.css';
import '@mantine/core/styles/default-css-variables.layer.css';
import '@mantine/core/styles/global.layer.css';
import '@mantine/core/styles/ScrollArea.layer.css';
import '@mantine/core/styles/UnstyledButton.layer.css';
import '@mantine/core/styles/VisuallyHidden.layer.css';
import '@mantine/core/styles/Paper.layer.css';
import '@mantine/core/styles/Overlay.layer.css';
import '@mantine/core/styles/Popover.layer.css';
import '@mantine/core/styles/Loader.layer.css';
import '@mantine/core/styles/ActionIcon.layer.css';
import '@mantine/core/styles/CloseButton.layer.css';
import '@mantine/core/styles/Group.layer.css';
import '@mantine/core/styles/ModalBase.layer.css';
import '@mantine/core/styles/Input.layer.css';
import '@mantine/core/styles/FloatingIndicator.layer.css';
import '@mantine/core/styles/Text.layer.css';
import '@mantine/core/styles/Combobox.layer.css';
import '@mantine/core/styles/InlineInput.layer.css';
import '@mantine/core/styles/CheckboxCard.layer.css';
import '@mantine/core/styles/CheckboxIndicator.layer.css';
import '@mantine/core/styles/Checkbox.layer.css';
import '@mantine/core/styles/Button.layer.css';
import '@mantine/core/styles/ColorSwatch.layer.css';
import '@mantine/core/styles/ColorPicker.layer.css';
import '@mantine/core/styles/Drawer.layer.css';
import '@mantine/core/styles/Mark.layer.css';
import '@mantine/core/styles/Menu.layer.css';
import '@mantine/core/styles/Modal.layer.css';
import '@mantine/core/styles/Pill.layer.css';
import '@mantine/core/styles/PillsInput.layer.css';
import '@mantine/core/styles/Notification.layer.css';
import '@mantine/core/styles/NumberInput.layer.css';
import '@mantine/core/styles/Progress.layer.css';
import '@mantine/core/styles/RadioCard.layer.css';
import '@mantine/core/styles/RadioIndicator.layer.css';
import '@mantine/core/styles/Radio.layer.css';
import '@mantine/core/styles/Tooltip.layer.css';
import '@mantine/core/styles/SegmentedControl.layer.css';
import '@mantine/core/styles/Switch.layer.css';
import '@mantine/core/styles/Table.layer.css';
import '@mantine/dates/styles.layer.css';
import '@mantine/notifications/styles.layer.css';
import '@mantine/spotlight/styles.layer.css';
