export { makeDemo } from './make-demo.ts';
