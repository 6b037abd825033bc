import { readFile, realpath } from 'node:fs/promises';
import { extname, join, sep } from 'node:path';
import { contentSecurityPolicy, everyAnswerHeaders } from './policy.ts';

/** What the built screens consist of; anything else in their folder is not served. */
const contentTypes: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webp': 'image/webp',
  '.woff2': 'font/woff2',
};

export interface ScreenFile {
  headers: Record<string, string>;
  body: Uint8Array<ArrayBuffer>;
}

/**
 * The file's place under the folder, or null where the path leads out of it: after decoding once, every part
 * must be a plain name, and links are followed before the folder is compared.
 */
const placeOf = async (folder: string, path: string): Promise<string | null> => {
  let decoded: string;
  try {
    decoded = decodeURIComponent(path);
  } catch {
    return null;
  }
  const parts = (decoded === '/' ? '/index.html' : decoded).split('/').slice(1);
  if (!decoded.startsWith('/') || parts.some(part => !/^[\w][\w.@-]*$/.test(part))) return null;
  try {
    const root = await realpath(folder);
    const place = await realpath(join(root, ...parts));
    return place.startsWith(root + sep) ? place : null;
  } catch {
    return null;
  }
};

/**
 * One file of the built screens with its headers, or null where there is none to serve. `path` is the
 * path of a URL, still encoded. A document gets its policy and, for the style elements of its own code,
 * that policy's nonce.
 */
export const screenFile = async (folder: string, path: string, nonce: string): Promise<ScreenFile | null> => {
  const place = await placeOf(folder, path);
  const type = place && contentTypes[extname(place)];
  if (!place || !type) return null;
  const body = new Uint8Array(await readFile(place));
  const headers = { ...everyAnswerHeaders, 'content-type': type, 'cache-control': 'no-store' };
  if (!place.endsWith('.html')) return { headers, body };
  const page = new TextDecoder()
    .decode(body)
    .replace('<head>', `<head>\n    <meta name="style-nonce" content="${nonce}" />`);
  return {
    headers: { ...headers, 'content-security-policy': contentSecurityPolicy(nonce) },
    body: new TextEncoder().encode(page),
  };
};
