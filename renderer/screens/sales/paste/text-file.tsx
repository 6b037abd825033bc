import { Button } from '@mantine/core';
import type { ReactNode } from 'react';
import { FileDropArea } from '../../../components/files/file-drop-area.tsx';
import { useFilePicker } from '../../../components/files/use-file-picker.tsx';
import classes from './paste.module.css';

const maxBytes = 5_000_000;

/** The text of a file; a sentence where it is none that can be read here. */
export const textOfFile = async (file: File): Promise<{ text: string } | { problem: string }> => {
  if (file.size > maxBytes) return { problem: `${file.name} is too large; divide it into files of 5 MB.` };
  const bytes = new Uint8Array(await file.arrayBuffer());
  const wide = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  const zipped = bytes[0] === 0x50 && bytes[1] === 0x4b;
  if (zipped || (!wide && bytes.includes(0)))
    return { problem: `${file.name} is not a text file. Import a spreadsheet instead.` };
  if (wide) return { text: new TextDecoder(bytes[0] === 0xff ? 'utf-16le' : 'utf-16be').decode(bytes) };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return { text: new TextDecoder('windows-1252').decode(bytes) };
  }
};

interface Takes {
  onText: (text: string) => void;
  onProblem: (sentence: string) => void;
}

const take = async (file: File, { onText, onProblem }: Takes) => {
  const found = await textOfFile(file);
  if ('problem' in found) onProblem(found.problem);
  else onText(found.text);
};

/** Chooses a text file. */
export const TextFile = (takes: Takes) => {
  const { choose, field } = useFilePicker({
    label: 'Text file of sales',
    accept: '.txt,.csv,.tsv,.md,text/*',
    onFiles: ([file]) => void take(file, takes),
  });
  return (
    <>
      <Button onClick={choose}>Choose a text file</Button>
      {field}
    </>
  );
};

/** Takes a text file that is dropped anywhere on the screen. */
export const TextDrop = ({ children, ...takes }: Takes & { children: ReactNode }) => (
  <FileDropArea className={classes.area} onFile={file => void take(file, takes)}>
    {children}
  </FileDropArea>
);
