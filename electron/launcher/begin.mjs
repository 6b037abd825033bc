// Plain JavaScript, so that what became of the TypeScript sources is held from one start to the next: making it anew
// takes a quarter of a second of a start, and 20 MB for as long as the host is open.
import { enableCompileCache } from 'node:module';
import { fileURLToPath } from 'node:url';

enableCompileCache(fileURLToPath(new URL('../../dist/compile-cache', import.meta.url)));
await import('./start.ts');
