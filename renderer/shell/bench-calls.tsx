import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import { Link } from 'wouter';
import { api } from '../api/client.ts';
import { useAction } from '../components/actions/use-action.ts';
import { deviceChoice } from '../components/use-device-choice.ts';
import { readerWords } from '../components/words.ts';
import classes from './shell.module.css';

/** A clock that was set or slept is noticed after this many milliseconds. */
const lookAgainAfter = 30_000;

/** Two short notes, where the browser lets a page be heard. */
const ring = (): void => {
  try {
    const sound = new AudioContext();
    if (sound.state !== 'running') return void sound.close();
    for (const [at, pitch] of [
      [0, 660],
      [0.25, 880],
    ] as const) {
      const tone = sound.createOscillator();
      const level = sound.createGain();
      tone.frequency.value = pitch;
      level.gain.setValueAtTime(0.15, sound.currentTime + at);
      level.gain.exponentialRampToValueAtTime(0.001, sound.currentTime + at + 0.22);
      tone.connect(level).connect(sound.destination);
      tone.start(sound.currentTime + at);
      tone.stop(sound.currentTime + at + 0.22);
      if (at > 0) tone.onended = () => void sound.close();
    }
  } catch {
    // A page that may not be heard shows its notice all the same.
  }
};

/** Calls, on every screen, when a step that runs by itself is done, until its owner has heard it. */
export const BenchCalls = () => {
  const { data: calls = [] } = useQuery({ queryKey: ['bench', 'calls'], queryFn: () => api.bench.calls() });
  const [now, setNow] = useState(() => Date.now());
  const due = calls.filter(({ waitsUntil }) => Date.parse(waitsUntil) <= now);
  const next = calls.find(({ waitsUntil }) => Date.parse(waitsUntil) > now);
  const until = next ? Date.parse(next.waitsUntil) : null;
  useEffect(() => {
    if (until === null) return;
    // Every look begins the next wait: a clock that was set back makes a wait longer, never endless.
    let waiting: ReturnType<typeof setTimeout>;
    const look = () => {
      setNow(Date.now());
      waiting = setTimeout(look, Math.max(50, Math.min(until - Date.now(), lookAgainAfter)));
    };
    waiting = setTimeout(look, Math.max(0, Math.min(until - Date.now(), lookAgainAfter)));
    return () => clearTimeout(waiting);
  }, [until]);
  const rung = useRef(new Set<string>());
  useEffect(() => {
    const fresh = due.filter(({ stepId, waitsUntil }) => !rung.current.has(`${stepId} ${waitsUntil}`));
    for (const { stepId, waitsUntil } of fresh) rung.current.add(`${stepId} ${waitsUntil}`);
    if (fresh.length > 0 && !deviceChoice('bench-quiet')) ring();
  });
  const heard = useAction((stepIds: number[]) => api.bench.heard({ stepIds }), { label: 'Dismissed' });
  if (due.length === 0) return null;
  return (
    <aside className={classes.calls} role="alert" aria-label="Done on the bench">
      <h2>Done on the bench</h2>
      <ul>
        {due.map(({ stepId, jobId, inventoryNumber, name }) => (
          <li key={stepId}>
            <Link href={`/bench/${jobId}`}>
              {inventoryNumber}: {readerWords().spell(name)}
            </Link>
            <Button onClick={() => heard.mutate([stepId])}>Dismiss</Button>
          </li>
        ))}
      </ul>
    </aside>
  );
};
