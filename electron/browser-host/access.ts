import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

/** What a code is answered with: the token, or why there is none. */
export type Exchange = { token: string } | { refused: 'used' | 'too old' | 'unknown' };

/** Who may speak to the host: holders of a token, which is given once for each code that was handed out. */
export interface Access {
  /** A fresh code for an address; it works once, and only for so many milliseconds. */
  newCode(lifetime: number): string;
  /** The token, if the code is good; the code is used up either way. */
  exchange(code: string): Exchange;
  isToken(given: string | undefined): boolean;
}

/** 128 bits from the system, in letters that need no escaping. */
const secret = (): string => randomBytes(16).toString('base64url');

/** Compares digests, so that neither the length nor the place of a difference shows in the time taken. */
const isSame = (left: string, right: string): boolean => {
  const digest = (text: string) => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(left), digest(right));
};

/** Codes that are remembered as used or too old, so that whoever comes with one can be told. */
const mostRemembered = 100;

/** `now` is in milliseconds. */
export const createAccess = (now: () => number): Access => {
  const token = secret();
  /** Until when each code is good; null once it was used. */
  const codes = new Map<string, number | null>();
  return {
    newCode(lifetime) {
      const code = secret();
      codes.set(code, now() + lifetime);
      const [oldest] = codes.keys();
      if (codes.size > mostRemembered && oldest !== undefined) codes.delete(oldest);
      return code;
    },
    exchange(given) {
      for (const [code, until] of codes) {
        if (!isSame(code, given)) continue;
        if (until === null) return { refused: 'used' };
        if (now() > until) return { refused: 'too old' };
        codes.set(code, null);
        return { token };
      }
      return { refused: 'unknown' };
    },
    isToken: given => given !== undefined && isSame(token, given),
  };
};
