import { Button } from '@mantine/core';
import { type ReactNode, useRef, useState } from 'react';
import classes from './paste.module.css';

const most = 5_000_000;

/** The text of a file; a sentence where it is none that can be read here. */
export const textOfFile = async (file: File): Promise<{ text: string } | { problem: string }> => {
  if (file.size > most) return { problem: `${file.name} is too large; divide it into files of 5 MB.` };
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

const take = async (file: File | undefined, { onText, onProblem }: Takes) => {
  if (!file) return;
  const found = await textOfFile(file);
  if ('problem' in found) onProblem(found.problem);
  else onText(found.text);
};

/** Chooses a text file. */
export const TextFile = (takes: Takes) => {
  const field = useRef<HTMLInputElement>(null);
  return (
    <>
      <Button onClick={() => field.current?.click()}>Choose a text file</Button>
      <input
        ref={field}
        className={classes.heard}
        type="file"
        tabIndex={-1}
        aria-label="Text file of sales"
        accept=".txt,.csv,.tsv,.md,text/*"
        onChange={event => {
          void take(event.currentTarget.files?.[0], takes);
          event.currentTarget.value = '';
        }}
      />
    </>
  );
};

/** Takes a text file that is dropped anywhere on the screen. */
export const TextDrop = ({ children, ...takes }: Takes & { children: ReactNode }) => {
  const [over, setOver] = useState(false);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the button is the first
    <div
      className={classes.area}
      data-over={over || undefined}
      onDragOver={event => {
        if (!event.dataTransfer.types.includes('Files')) return;
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={event => {
        if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setOver(false);
      }}
      onDrop={event => {
        event.preventDefault();
        setOver(false);
        void take(event.dataTransfer.files[0], takes);
      }}
    >
      {children}
    </div>
  );
};
