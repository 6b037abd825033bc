/**
 * The currencies that an amount can be in, by the number of their decimals. Source: ISO 4217 list one as
 * published on 2024-06-25 (tests/published/data/iso-4217.json), and XCG, which came in 2025 (from memory).
 * Codes without a minor unit are left out: metals, baskets, the test code, and "no currency".
 */
const current: Record<number, string> = {
  0: `
  BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF
`,
  2: `
  AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD
  CDF CHE CHF CHW CNY COP COU CRC CUC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP
  GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL
  MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN
  QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD
  TWD TZS UAH USD USN UYU UZS VED VES WST XCD XCG YER ZAR ZMW ZWG
`,
  3: 'BHD IQD JOD KWD LYD OMR TND',
  4: 'CLF UYW',
};

/**
 * Currencies of ISO 4217 list three, withdrawn since 1990, in which an older sale record may be. Codes and
 * decimals are from memory; the list itself gives no decimals.
 */
const withdrawn: Record<number, string> = {
  0: 'BEF ESP GRD ITL LUF PTE TRL',
  2: 'ATS CYP DDM DEM EEK FIM FRF HRK IEP LTL LVL MTL NLG ROL SIT SKK SLL STD VEB VEF YUM ZWL',
};

/** Decimals of every currency by its code. */
export const currencyTable: ReadonlyMap<string, number> = new Map(
  [current, withdrawn].flatMap(byDecimals =>
    Object.entries(byDecimals).flatMap(([decimals, codes]) =>
      codes
        .trim()
        .split(/\s+/)
        .map((code): [string, number] => [code, Number(decimals)]),
    ),
  ),
);
