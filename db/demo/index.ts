export type { DemoContent, SnapshotDay } from './content.ts';
export { demoDate } from './dates.ts';
export { demoContent } from './demo-content.ts';
export { type WriteDemoOptions, writeDemo } from './write-demo.ts';
