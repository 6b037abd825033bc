export type { DemoContent } from './content.ts';
export { demoContent } from './demo-content.ts';
export { writeDemo } from './write-demo.ts';
