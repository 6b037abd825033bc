/**
 * The headers under which the screens are shown, the same in the app's own scheme and on
 * the loopback address.
 */

/**
 * Content-Security-Policy of every document. Only the screens' own files run; `<style>` elements need the
 * document's nonce (the component library writes its colours that way); photographs and reports are blobs
 * made by the page.
 */
export const contentSecurityPolicy = (nonce: string): string =>
  [
    "default-src 'none'",
    "script-src 'self'",
    `style-src 'self' 'nonce-${nonce}'`,
    "img-src 'self' blob: data:",
    "font-src 'self'",
    "connect-src 'self'",
    "object-src 'none'",
    "frame-src 'none'",
    "worker-src 'none'",
    "form-action 'none'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ].join('; ');

/**
 * Headers of every answer, document or not. The policy is for what a browser may make a document of all the
 * same, such as a picture opened by itself or a refusal: nothing runs in it and nothing is loaded. A document
 * of ours brings its own.
 */
export const everyAnswerHeaders = {
  'content-security-policy':
    "default-src 'none'; form-action 'none'; base-uri 'none'; frame-ancestors 'none'; sandbox",
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-resource-policy': 'same-origin',
  'cross-origin-opener-policy': 'same-origin',
} as const;
