import { type DragEvent, useState } from 'react';

const hasFiles = (event: DragEvent) => event.dataTransfer.types.includes('Files');

/**
 * Files dropped from outside: `over` while they are held above, `handlers` for the element that takes them.
 * Text that is dragged goes where it would go anyway; within another such element the inner one takes them.
 */
export const useFileDrop = (onFiles: (files: [File, ...File[]]) => void) => {
  const [over, setOver] = useState(false);
  const handlers = {
    onDragOver: (event: DragEvent) => {
      if (!hasFiles(event) || event.defaultPrevented) return setOver(false);
      event.preventDefault();
      setOver(true);
    },
    onDragLeave: (event: DragEvent) => {
      if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setOver(false);
    },
    onDrop: (event: DragEvent) => {
      setOver(false);
      if (!hasFiles(event) || event.defaultPrevented) return;
      event.preventDefault();
      const [first, ...others] = event.dataTransfer.files;
      if (first) onFiles([first, ...others]);
    },
  };
  return { over, handlers };
};
