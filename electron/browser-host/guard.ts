import type { IncomingMessage } from 'node:http';

/** Why a request goes no further. The sentence is for whoever looks at the answer by hand. */
export interface Refusal {
  status: number;
  sentence: string;
}

const refuse = (status: number, sentence: string): Refusal => ({ status, sentence });

const megabyte = 1_000_000;
/** Photographs and spreadsheets come as forms; everything else is the JSON of one call. */
const bodyLimits: [RegExp, number][] = [
  [/^application\/json(;|$)/, 64 * megabyte],
  [/^multipart\/form-data;/, 2_100 * megabyte],
];

/**
 * The body must say its kind and its length beforehand: a length that is a lie is cut off by the HTTP parser,
 * so the limit holds without counting.
 */
const bodyRefusal = (request: IncomingMessage): Refusal | null => {
  const { headers } = request;
  const type = headers['content-type'];
  const length = Number(headers['content-length']);
  if (headers['transfer-encoding'] !== undefined || !Number.isSafeInteger(length))
    return refuse(411, 'A body needs its length.');
  if (type === undefined && length === 0) return null;
  const limit = bodyLimits.find(([pattern]) => pattern.test(type ?? ''))?.[1];
  if (limit === undefined) return refuse(415, 'A body is JSON or a form.');
  return length > limit ? refuse(413, `A body may have ${limit / megabyte} MB at most.`) : null;
};

/** Where a browser says that a request was made by another site's page, whatever else it says. */
const isCrossSite = (request: IncomingMessage): boolean => {
  const site = request.headers['sec-fetch-site'];
  return site !== undefined && site !== 'same-origin' && site !== 'none';
};

/**
 * Headers that a request is judged by. Node reads the first of several; whoever stands in between
 * may read the last.
 */
const judgedHeaders = new Set(['host', 'origin', 'content-type', 'x-playworn-token', 'sec-fetch-site']);

const repeatsAHeader = ({ rawHeaders }: IncomingMessage): boolean => {
  const judged = rawHeaders
    .filter((_, i) => i % 2 === 0)
    .map(name => name.toLowerCase())
    .filter(name => judgedHeaders.has(name));
  return new Set(judged).size < judged.length;
};

/**
 * Looks at what every request must be before any route does: made to this very address (so that no name
 * pointed at the loopback address gets through), by a page of this very origin.
 */
export const refusalOf = (request: IncomingMessage, authority: string): Refusal | null => {
  const { headers, method } = request;
  if (repeatsAHeader(request)) return refuse(400, 'A header is there twice.');
  if (headers.host !== authority) return refuse(421, 'This address is not served here.');
  const { origin } = headers;
  if (origin !== undefined && origin !== `http://${authority}`)
    return refuse(403, 'Another origin is not served.');
  if (method === 'GET' || method === 'HEAD') {
    const isVisit = headers['sec-fetch-mode'] === 'navigate' && headers['sec-fetch-dest'] === 'document';
    return isCrossSite(request) && !isVisit ? refuse(403, 'Another site is not served.') : null;
  }
  if (method !== 'POST') return refuse(405, 'GET, HEAD and POST are served.');
  if (origin === undefined || isCrossSite(request)) return refuse(403, 'Another origin is not served.');
  return bodyRefusal(request);
};
