import { useRef } from 'react';

/** The pictures that can be taken as photographs. */
export const pictureTypes =
  'image/jpeg,image/png,image/webp,image/avif,image/tiff,image/gif,image/heic,image/heif,.heic,.heif';

/**
 * Files chosen in the dialog of the system: `choose` opens it, `field` has to be put beside the button that
 * does. The same file can be chosen again; nothing is told where none was chosen.
 */
export const useFilePicker = ({
  label,
  accept,
  multiple = false,
  testId,
  onFiles,
}: {
  label: string;
  accept: string;
  multiple?: boolean;
  testId?: string;
  onFiles: (files: [File, ...File[]]) => void;
}) => {
  const input = useRef<HTMLInputElement>(null);
  const choose = () => input.current?.click();
  const field = (
    <input
      ref={input}
      type="file"
      hidden
      aria-label={label}
      accept={accept}
      multiple={multiple}
      data-testid={testId}
      onChange={event => {
        const [first, ...others] = event.currentTarget.files ?? [];
        event.currentTarget.value = '';
        if (first) onFiles([first, ...others]);
      }}
    />
  );
  return { choose, field };
};
