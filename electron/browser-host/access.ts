import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

/** Who may speak to the host: holders of a token, which is given once for each code that was printed. */
export interface Access {
  /** A fresh code for an address; it works once, and only for a while. */
  newCode(): string;
  /** The token, if the code is good; the code is used up either way. */
  exchange(code: string): string | null;
  isToken(given: string | undefined): boolean;
}

/** 128 bits from the system, in letters that need no escaping. */
const secret = (): string => randomBytes(16).toString('base64url');

/** Compares digests, so that neither the length nor the place of a difference shows in the time taken. */
const isSame = (left: string, right: string): boolean => {
  const digest = (text: string) => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(left), digest(right));
};

const codeLifetime = 15 * 60_000;

/** `now` is in milliseconds. The first code lasts as long as the host: a terminal may be looked at much later. */
export const createAccess = (now: () => number): Access => {
  const token = secret();
  const codes = new Map<string, number>();
  return {
    newCode() {
      const code = secret();
      codes.set(code, codes.size === 0 ? Number.POSITIVE_INFINITY : now() + codeLifetime);
      return code;
    },
    exchange(given) {
      for (const [code, until] of codes) {
        if (!isSame(code, given)) continue;
        codes.delete(code);
        return now() <= until ? token : null;
      }
      return null;
    },
    isToken: given => given !== undefined && isSame(token, given),
  };
};
