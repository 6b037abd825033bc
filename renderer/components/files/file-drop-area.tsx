import type { ReactNode } from 'react';
import classes from './files.module.css';
import { useFileDrop } from './use-file-drop.ts';

/** Takes a file that is dropped anywhere within; a button does the same for whoever drops nothing. */
export const FileDropArea = ({
  children,
  className,
  onFile,
}: {
  children: ReactNode;
  className: string | undefined;
  onFile: (file: File) => void;
}) => {
  const { over, handlers } = useFileDrop(([file]) => onFile(file));
  return (
    <div className={`${classes.area} ${className}`} data-over={over || undefined} {...handlers}>
      {children}
    </div>
  );
};
