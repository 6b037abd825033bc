import '../service/small-heap.ts';
import { outliveReaders } from './outlive-readers.ts';
import { runCommand } from './run-command.ts';

outliveReaders();
await runCommand(process.argv.slice(2));
