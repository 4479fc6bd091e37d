/** Shows a quantity with as many figures as it deserves. */
// @ts-nocheck
function stryNS_9fa48() {
  var g = typeof globalThis === 'object' && globalThis && globalThis.Math === Math && globalThis || new Function("return this")();
  var ns = g.__stryker__ || (g.__stryker__ = {});
  if (ns.activeMutant === undefined && g.process && g.process.env && g.process.env.__STRYKER_ACTIVE_MUTANT__) {
    ns.activeMutant = g.process.env.__STRYKER_ACTIVE_MUTANT__;
  }
  function retrieveNS() {
    return ns;
  }
  stryNS_9fa48 = retrieveNS;
  return retrieveNS();
}
stryNS_9fa48();
function stryCov_9fa48() {
  var ns = stryNS_9fa48();
  var cov = ns.mutantCoverage || (ns.mutantCoverage = {
    static: {},
    perTest: {}
  });
  function cover() {
    var c = cov.static;
    if (ns.currentTestId) {
      c = cov.perTest[ns.currentTestId] = cov.perTest[ns.currentTestId] || {};
    }
    var a = arguments;
    for (var i = 0; i < a.length; i++) {
      c[a[i]] = (c[a[i]] || 0) + 1;
    }
  }
  stryCov_9fa48 = cover;
  cover.apply(null, arguments);
}
function stryMutAct_9fa48(id) {
  var ns = stryNS_9fa48();
  function isActive(id) {
    if (ns.activeMutant === id) {
      if (ns.hitCount !== void 0 && ++ns.hitCount > ns.hitLimit) {
        throw new Error('Stryker: Hit count limit reached (' + ns.hitCount + ')');
      }
      return true;
    }
    return false;
  }
  stryMutAct_9fa48 = isActive;
  return isActive(id);
}
import { canonicalUnit, type QuantityKind } from './kinds.js';
import { findUnit, type Unit, units } from './unit-names.js';

/** Keeps `12 000` on one line. */
const groupBlank = '\u00a0';
/** Kinds shown as whole numbers from ten on, in their canonical unit. */
const wholeKinds: ReadonlySet<QuantityKind> = new Set(['speed', 'speed-factor', 'count', 'money', 'concentration']);

/** `12000` as `12 000` (a no-break blank between), from five figures on. */
function grouped(text: string): string {
  if (stryMutAct_9fa48("7")) {
    {}
  } else {
    stryCov_9fa48("7");
    const [whole = '', part] = text.split('.');
    const digits = whole.replace('-', '');
    const spaced = (stryMutAct_9fa48("15") ? digits.length >= 5 : stryMutAct_9fa48("14") ? digits.length <= 5 : stryMutAct_9fa48("13") ? false : stryMutAct_9fa48("12") ? true : (stryCov_9fa48("12", "13", "14", "15"), digits.length < 5)) ? whole : whole.replace(stryMutAct_9fa48("21") ? /\B(?=(\d{3})+(?!\D))/g : stryMutAct_9fa48("20") ? /\B(?=(\d{3})+(?=\d))/g : stryMutAct_9fa48("19") ? /\B(?=(\D{3})+(?!\d))/g : stryMutAct_9fa48("18") ? /\B(?=(\d)+(?!\d))/g : stryMutAct_9fa48("17") ? /\B(?=(\d{3})(?!\d))/g : stryMutAct_9fa48("16") ? /\B(?!(\d{3})+(?!\d))/g : (stryCov_9fa48("16", "17", "18", "19", "20", "21"), /\B(?=(\d{3})+(?!\d))/g), groupBlank);
    return (stryMutAct_9fa48("24") ? part !== undefined : stryMutAct_9fa48("23") ? false : stryMutAct_9fa48("22") ? true : (stryCov_9fa48("22", "23", "24"), part === undefined)) ? spaced : `${spaced}.${part}`;
  }
}

/** Decimals that a half width allows: one figure of it, two for 1.1 to 1.9. Negative: tens and up. */
function decimalsFor(plusMinus: number): number {
  if (stryMutAct_9fa48("26")) {
    {}
  } else {
    stryCov_9fa48("26");
    const power = Math.floor(stryMutAct_9fa48("27") ? Math.log10(plusMinus) - 1e-9 : (stryCov_9fa48("27"), Math.log10(plusMinus) + 1e-9));
    const first = stryMutAct_9fa48("28") ? plusMinus * 10 ** power : (stryCov_9fa48("28"), plusMinus / 10 ** power);
    return stryMutAct_9fa48("29") ? (first >= 1.05 && first < 1.95 ? 1 : 0) + power : (stryCov_9fa48("29"), ((stryMutAct_9fa48("32") ? first >= 1.05 || first < 1.95 : stryMutAct_9fa48("31") ? false : stryMutAct_9fa48("30") ? true : (stryCov_9fa48("30", "31", "32"), (stryMutAct_9fa48("35") ? first < 1.05 : stryMutAct_9fa48("34") ? first > 1.05 : stryMutAct_9fa48("33") ? true : (stryCov_9fa48("33", "34", "35"), first >= 1.05)) && (stryMutAct_9fa48("38") ? first >= 1.95 : stryMutAct_9fa48("37") ? first <= 1.95 : stryMutAct_9fa48("36") ? true : (stryCov_9fa48("36", "37", "38"), first < 1.95)))) ? 1 : 0) - power);
  }
}

/** Fixed decimals, or rounded to tens and more when `decimals` is negative. */
function fixed(value: number, decimals: number): string {
  if (stryMutAct_9fa48("39")) {
    {}
  } else {
    stryCov_9fa48("39");
    // Halves go up as on paper: toFixed alone makes 0.97 of 0.975.
    if (stryMutAct_9fa48("43") ? decimals < 0 : stryMutAct_9fa48("42") ? decimals > 0 : stryMutAct_9fa48("41") ? false : stryMutAct_9fa48("40") ? true : (stryCov_9fa48("40", "41", "42", "43"), decimals >= 0)) return (stryMutAct_9fa48("44") ? value / (1 + 1e-12) : (stryCov_9fa48("44"), value * (stryMutAct_9fa48("45") ? 1 - 1e-12 : (stryCov_9fa48("45"), 1 + 1e-12)))).toFixed(stryMutAct_9fa48("46") ? Math.max(decimals, 12) : (stryCov_9fa48("46"), Math.min(decimals, 12)));
    const step = 10 ** (stryMutAct_9fa48("47") ? +decimals : (stryCov_9fa48("47"), -decimals));
    return (stryMutAct_9fa48("48") ? Math.round(value / step) / step : (stryCov_9fa48("48"), Math.round(stryMutAct_9fa48("49") ? value * step : (stryCov_9fa48("49"), value / step)) * step)).toFixed(0);
  }
}

/** Speeds that were worked out: nobody sets a drive to the single turn. */
const SPEED = 4;
function plainFigures(value: number, kind: QuantityKind, options: ShowOptions, canonical: boolean): string {
  if (stryMutAct_9fa48("50")) {
    {}
  } else {
    stryCov_9fa48("50");
    const figures = stryMutAct_9fa48("51") ? options.figures && FIGURES : (stryCov_9fa48("51"), options.figures ?? FIGURES);
    if (stryMutAct_9fa48("54") ? value !== 0 : stryMutAct_9fa48("53") ? false : stryMutAct_9fa48("52") ? true : (stryCov_9fa48("52", "53", "54"), value === 0)) return '0';
    const size = Math.abs(value);
    if (stryMutAct_9fa48("58") ? kind !== 'money' : stryMutAct_9fa48("57") ? false : stryMutAct_9fa48("56") ? true : (stryCov_9fa48("56", "57", "58"), kind === 'money')) return Number.isInteger(value) ? value.toFixed(0) : value.toFixed(2);
    const workedOut = stryMutAct_9fa48("62") ? options.figures !== undefined || canonical : stryMutAct_9fa48("61") ? false : stryMutAct_9fa48("60") ? true : (stryCov_9fa48("60", "61", "62"), (stryMutAct_9fa48("64") ? options.figures === undefined : stryMutAct_9fa48("63") ? true : (stryCov_9fa48("63", "64"), options.figures !== undefined)) && canonical);
    if (stryMutAct_9fa48("67") ? workedOut && (kind === 'speed' || kind === 'speed-factor') || size >= 10 ** SPEED : stryMutAct_9fa48("66") ? false : stryMutAct_9fa48("65") ? true : (stryCov_9fa48("65", "66", "67"), (stryMutAct_9fa48("69") ? workedOut || kind === 'speed' || kind === 'speed-factor' : stryMutAct_9fa48("68") ? true : (stryCov_9fa48("68", "69"), workedOut && (stryMutAct_9fa48("71") ? kind === 'speed' && kind === 'speed-factor' : stryMutAct_9fa48("70") ? true : (stryCov_9fa48("70", "71"), (stryMutAct_9fa48("73") ? kind !== 'speed' : stryMutAct_9fa48("72") ? false : (stryCov_9fa48("72", "73"), kind === 'speed')) || (stryMutAct_9fa48("76") ? kind !== 'speed-factor' : stryMutAct_9fa48("75") ? false : (stryCov_9fa48("75", "76"), kind === 'speed-factor')))))) && (stryMutAct_9fa48("80") ? size < 10 ** SPEED : stryMutAct_9fa48("79") ? size > 10 ** SPEED : stryMutAct_9fa48("78") ? true : (stryCov_9fa48("78", "79", "80"), size >= 10 ** SPEED)))) return Number(value.toPrecision(SPEED)).toFixed(0);
    if (stryMutAct_9fa48("83") ? canonical && wholeKinds.has(kind) || size >= 10 : stryMutAct_9fa48("82") ? false : stryMutAct_9fa48("81") ? true : (stryCov_9fa48("81", "82", "83"), (stryMutAct_9fa48("85") ? canonical || wholeKinds.has(kind) : stryMutAct_9fa48("84") ? true : (stryCov_9fa48("84", "85"), canonical && wholeKinds.has(kind))) && (stryMutAct_9fa48("88") ? size < 10 : stryMutAct_9fa48("87") ? size > 10 : stryMutAct_9fa48("86") ? true : (stryCov_9fa48("86", "87", "88"), size >= 10)))) return value.toFixed(0);
    if (stryMutAct_9fa48("91") ? workedOut && kind === 'length' && size >= 1 || size < 100 : stryMutAct_9fa48("90") ? false : stryMutAct_9fa48("89") ? true : (stryCov_9fa48("89", "90", "91"), (stryMutAct_9fa48("93") ? workedOut && kind === 'length' || size >= 1 : stryMutAct_9fa48("92") ? true : (stryCov_9fa48("92", "93"), (stryMutAct_9fa48("95") ? workedOut || kind === 'length' : stryMutAct_9fa48("94") ? true : (stryCov_9fa48("94", "95"), workedOut && (stryMutAct_9fa48("97") ? kind !== 'length' : stryMutAct_9fa48("96") ? true : (stryCov_9fa48("96", "97"), kind === 'length')))) && (stryMutAct_9fa48("101") ? size < 1 : stryMutAct_9fa48("100") ? size > 1 : stryMutAct_9fa48("99") ? true : (stryCov_9fa48("99", "100", "101"), size >= 1)))) && (stryMutAct_9fa48("104") ? size >= 100 : stryMutAct_9fa48("103") ? size <= 100 : stryMutAct_9fa48("102") ? true : (stryCov_9fa48("102", "103", "104"), size < 100)))) return String(Number(value.toFixed(RULE)));
    if (stryMutAct_9fa48("108") ? size < 10 ** figures : stryMutAct_9fa48("107") ? size > 10 ** figures : stryMutAct_9fa48("106") ? false : stryMutAct_9fa48("105") ? true : (stryCov_9fa48("105", "106", "107", "108"), size >= 10 ** figures)) return value.toFixed(0);
    if (stryMutAct_9fa48("112") ? size >= 1e-6 : stryMutAct_9fa48("111") ? size <= 1e-6 : stryMutAct_9fa48("110") ? false : stryMutAct_9fa48("109") ? true : (stryCov_9fa48("109", "110", "111", "112"), size < 1e-6)) return value.toExponential(stryMutAct_9fa48("113") ? figures + 1 : (stryCov_9fa48("113"), figures - 1));
    return String(Number(value.toPrecision(figures)));
  }
}
const decimalsOf = stryMutAct_9fa48("114") ? () => undefined : (stryCov_9fa48("114"), (() => {
  const decimalsOf = (text: string): number => stryMutAct_9fa48("115") ? text.split('.')[1]?.length && 0 : (stryCov_9fa48("115"), (stryMutAct_9fa48("116") ? text.split('.')[1].length : (stryCov_9fa48("116"), text.split('.')[1]?.length)) ?? 0);
  return decimalsOf;
})());

/** Significant figures where nothing else is said. */
const FIGURES = 4;
/** Lengths that a hand sets: a rule reads a tenth of a millimetre, however wide the figure is. */
const RULE = 1;

/** No figure that the half width does not bear, no zero of what is not zero, no more than without a half width. */
function roundedBy(value: number, half: number, plain: string, kind: QuantityKind, unit: string): string {
  if (stryMutAct_9fa48("118")) {
    {}
  } else {
    stryCov_9fa48("118");
    if (stryMutAct_9fa48("121") ? (value === 0 || kind === 'money') && plain.includes('e') : stryMutAct_9fa48("120") ? false : stryMutAct_9fa48("119") ? true : (stryCov_9fa48("119", "120", "121"), (stryMutAct_9fa48("123") ? value === 0 && kind === 'money' : stryMutAct_9fa48("122") ? false : (stryCov_9fa48("122", "123"), (stryMutAct_9fa48("125") ? value !== 0 : stryMutAct_9fa48("124") ? false : (stryCov_9fa48("124", "125"), value === 0)) || (stryMutAct_9fa48("127") ? kind !== 'money' : stryMutAct_9fa48("126") ? false : (stryCov_9fa48("126", "127"), kind === 'money')))) || plain.includes('e'))) return plain;
    const first = stryMutAct_9fa48("130") ? +Math.floor(Math.log10(Math.abs(value)) + 1e-9) : (stryCov_9fa48("130"), -Math.floor(stryMutAct_9fa48("131") ? Math.log10(Math.abs(value)) - 1e-9 : (stryCov_9fa48("131"), Math.log10(Math.abs(value)) + 1e-9)));
    const least = (stryMutAct_9fa48("134") ? kind === 'length' || unit === 'mm' : stryMutAct_9fa48("133") ? false : stryMutAct_9fa48("132") ? true : (stryCov_9fa48("132", "133", "134"), (stryMutAct_9fa48("136") ? kind !== 'length' : stryMutAct_9fa48("135") ? true : (stryCov_9fa48("135", "136"), kind === 'length')) && (stryMutAct_9fa48("139") ? unit !== 'mm' : stryMutAct_9fa48("138") ? true : (stryCov_9fa48("138", "139"), unit === 'mm')))) ? stryMutAct_9fa48("141") ? Math.min(first, RULE) : (stryCov_9fa48("141"), Math.max(first, RULE)) : first;
    const most = wholeKinds.has(kind) ? decimalsOf(plain) : stryMutAct_9fa48("142") ? Math.min(0, FIGURES - 1 + first) : (stryCov_9fa48("142"), Math.max(0, stryMutAct_9fa48("143") ? FIGURES - 1 - first : (stryCov_9fa48("143"), (stryMutAct_9fa48("144") ? FIGURES + 1 : (stryCov_9fa48("144"), FIGURES - 1)) + first)));
    return fixed(value, stryMutAct_9fa48("145") ? Math.max(most, Math.max(decimalsFor(half), least)) : (stryCov_9fa48("145"), Math.min(most, stryMutAct_9fa48("146") ? Math.min(decimalsFor(half), least) : (stryCov_9fa48("146"), Math.max(decimalsFor(half), least)))));
  }
}
export interface ShowOptions {
  /** Half width in the canonical unit. */
  readonly plusMinus?: number | undefined;
  /** Half width that the value is rounded by without being shown. */
  readonly roundBy?: number | undefined;
  /** A reading: with its half width it keeps the figures that were read, also those below that half width. */
  readonly asRead?: boolean;
  /** Show in this unit instead of the canonical one. */
  readonly unit?: string | undefined;
  /** Significant figures where no half width is known; 4 unless said. */
  readonly figures?: number;
}

/** Kinds that run over many powers of ten, each with the units that it is read in, the smallest first. */
const scales: Partial<Record<QuantityKind, readonly string[]>> = {
  resistance: ['mΩ', 'Ω', 'kΩ', 'MΩ', 'GΩ'],
  voltage: ['mV', 'V', 'kV'],
  current: ['mA', 'A', 'kA'],
  force: ['N', 'kN'],
  pressure: ['mbar', 'bar']
};

/** The canonical unit, or of a kind with a scale the largest in which the figure is 1 or more. */
function nearUnit(value: number, kind: QuantityKind): Unit | undefined {
  if (stryMutAct_9fa48("168")) {
    {}
  } else {
    stryCov_9fa48("168");
    const scale = (stryMutAct_9fa48("169") ? scales[kind] && [] : (stryCov_9fa48("169"), scales[kind] ?? [])).flatMap(stryMutAct_9fa48("171") ? () => undefined : (stryCov_9fa48("171"), u => stryMutAct_9fa48("172") ? findUnit(u, kind) && [] : (stryCov_9fa48("172"), findUnit(u, kind) ?? [])));
    if (stryMutAct_9fa48("176") ? value === 0 && scale.length === 0 : stryMutAct_9fa48("175") ? false : stryMutAct_9fa48("174") ? true : (stryCov_9fa48("174", "175", "176"), (stryMutAct_9fa48("178") ? value !== 0 : stryMutAct_9fa48("177") ? false : (stryCov_9fa48("177", "178"), value === 0)) || (stryMutAct_9fa48("180") ? scale.length !== 0 : stryMutAct_9fa48("179") ? false : (stryCov_9fa48("179", "180"), scale.length === 0)))) return units[kind][0];
    return stryMutAct_9fa48("181") ? scale.filter(u => Math.abs(u.from(value)) >= 1).at(-1) && scale[0] : (stryCov_9fa48("181"), (stryMutAct_9fa48("182") ? scale.at(-1) : (stryCov_9fa48("182"), scale.filter(stryMutAct_9fa48("183") ? () => undefined : (stryCov_9fa48("183"), u => stryMutAct_9fa48("187") ? Math.abs(u.from(value)) < 1 : stryMutAct_9fa48("186") ? Math.abs(u.from(value)) > 1 : stryMutAct_9fa48("185") ? false : stryMutAct_9fa48("184") ? true : (stryCov_9fa48("184", "185", "186", "187"), Math.abs(u.from(value)) >= 1))).at(stryMutAct_9fa48("188") ? +1 : (stryCov_9fa48("188"), -1)))) ?? scale[0]);
  }
}

/**
 * `value` (canonical) as text with its unit, rounded by its half width.
 * Durations as `1 h 30 min` unless a unit is asked for. Values that are not finite show as `-`.
 */
export function showQuantity(value: number, kind: QuantityKind, options: ShowOptions = {}): string {
  if (stryMutAct_9fa48("189")) {
    {}
  } else {
    stryCov_9fa48("189");
    if (stryMutAct_9fa48("192") ? false : stryMutAct_9fa48("191") ? true : stryMutAct_9fa48("190") ? Number.isFinite(value) : (stryCov_9fa48("190", "191", "192"), !Number.isFinite(value))) return '-';
    if (stryMutAct_9fa48("196") ? kind === 'duration' && options.unit === undefined || options.plusMinus === undefined : stryMutAct_9fa48("195") ? false : stryMutAct_9fa48("194") ? true : (stryCov_9fa48("194", "195", "196"), (stryMutAct_9fa48("198") ? kind === 'duration' || options.unit === undefined : stryMutAct_9fa48("197") ? true : (stryCov_9fa48("197", "198"), (stryMutAct_9fa48("200") ? kind !== 'duration' : stryMutAct_9fa48("199") ? true : (stryCov_9fa48("199", "200"), kind === 'duration')) && (stryMutAct_9fa48("203") ? options.unit !== undefined : stryMutAct_9fa48("202") ? true : (stryCov_9fa48("202", "203"), options.unit === undefined)))) && (stryMutAct_9fa48("205") ? options.plusMinus !== undefined : stryMutAct_9fa48("204") ? true : (stryCov_9fa48("204", "205"), options.plusMinus === undefined)))) return showDuration(value);
    const unit = (stryMutAct_9fa48("208") ? options.unit !== undefined : stryMutAct_9fa48("207") ? false : stryMutAct_9fa48("206") ? true : (stryCov_9fa48("206", "207", "208"), options.unit === undefined)) ? nearUnit(value, kind) : stryMutAct_9fa48("209") ? findUnit(options.unit, kind) && units[kind][0] : (stryCov_9fa48("209"), findUnit(options.unit, kind) ?? units[kind][0]);
    const from = stryMutAct_9fa48("210") ? unit?.from && ((v: number) => v) : (stryCov_9fa48("210"), (stryMutAct_9fa48("211") ? unit.from : (stryCov_9fa48("211"), unit?.from)) ?? (stryMutAct_9fa48("212") ? () => undefined : (stryCov_9fa48("212"), (v: number) => v)));
    const shown = from(value);
    const width = stryMutAct_9fa48("213") ? () => undefined : (stryCov_9fa48("213"), (() => {
      const width = (by: number | undefined): number => (stryMutAct_9fa48("216") ? by !== undefined : stryMutAct_9fa48("215") ? false : stryMutAct_9fa48("214") ? true : (stryCov_9fa48("214", "215", "216"), by === undefined)) ? 0 : Math.abs(stryMutAct_9fa48("217") ? from(by) + from(0) : (stryCov_9fa48("217"), from(by) - from(0)));
      return width;
    })());
    const half = width(options.plusMinus);
    const name = stryMutAct_9fa48("218") ? unit?.show && canonicalUnit[kind] : (stryCov_9fa48("218"), (stryMutAct_9fa48("219") ? unit.show : (stryCov_9fa48("219"), unit?.show)) ?? canonicalUnit[kind]);
    const tail = (stryMutAct_9fa48("222") ? name !== '' : stryMutAct_9fa48("221") ? false : stryMutAct_9fa48("220") ? true : (stryCov_9fa48("220", "221", "222"), name === '')) ? '' : (stryMutAct_9fa48("227") ? name !== '°' : stryMutAct_9fa48("226") ? false : stryMutAct_9fa48("225") ? true : (stryCov_9fa48("225", "226", "227"), name === '°')) ? '°' : ` ${name}`;
    const plain = plainFigures(shown, kind, options, stryMutAct_9fa48("233") ? from(1) !== 1 : stryMutAct_9fa48("232") ? false : stryMutAct_9fa48("231") ? true : (stryCov_9fa48("231", "232", "233"), from(1) === 1));
    const by = width(options.roundBy);
    if (stryMutAct_9fa48("236") ? !(half > 0) && !Number.isFinite(half) : stryMutAct_9fa48("235") ? false : stryMutAct_9fa48("234") ? true : (stryCov_9fa48("234", "235", "236"), (stryMutAct_9fa48("237") ? half > 0 : (stryCov_9fa48("237"), !(stryMutAct_9fa48("241") ? half <= 0 : stryMutAct_9fa48("240") ? half >= 0 : stryMutAct_9fa48("239") ? false : stryMutAct_9fa48("238") ? true : (stryCov_9fa48("238", "239", "240", "241"), half > 0)))) || (stryMutAct_9fa48("242") ? Number.isFinite(half) : (stryCov_9fa48("242"), !Number.isFinite(half))))) {
      if (stryMutAct_9fa48("243")) {
        {}
      } else {
        stryCov_9fa48("243");
        const text = (stryMutAct_9fa48("246") ? by > 0 || Number.isFinite(by) : stryMutAct_9fa48("245") ? false : stryMutAct_9fa48("244") ? true : (stryCov_9fa48("244", "245", "246"), (stryMutAct_9fa48("249") ? by <= 0 : stryMutAct_9fa48("248") ? by >= 0 : stryMutAct_9fa48("247") ? true : (stryCov_9fa48("247", "248", "249"), by > 0)) && Number.isFinite(by))) ? roundedBy(shown, by, plain, kind, name) : plain;
        return `${grouped(minus(text))}${tail}`;
      }
    }
    const decimals = decimalsFor(half);
    const told = (stryMutAct_9fa48("253") ? options.asRead || decimalsOf(plain) > decimals : stryMutAct_9fa48("252") ? false : stryMutAct_9fa48("251") ? true : (stryCov_9fa48("251", "252", "253"), options.asRead && (stryMutAct_9fa48("256") ? decimalsOf(plain) <= decimals : stryMutAct_9fa48("255") ? decimalsOf(plain) >= decimals : stryMutAct_9fa48("254") ? true : (stryCov_9fa48("254", "255", "256"), decimalsOf(plain) > decimals)))) ? plain : fixed(shown, decimals);
    return `${grouped(minus(told))} ± ${grouped(fixed(half, decimals))}${tail}`;
  }
}

/** Never `-0`. */
const minus = stryMutAct_9fa48("258") ? () => undefined : (stryCov_9fa48("258"), (() => {
  const minus = (text: string): string => (stryMutAct_9fa48("262") ? /^-[^0.]*$/ : stryMutAct_9fa48("261") ? /^-[0.]$/ : stryMutAct_9fa48("260") ? /^-[0.]*/ : stryMutAct_9fa48("259") ? /-[0.]*$/ : (stryCov_9fa48("259", "260", "261", "262"), /^-[0.]*$/)).test(text) ? stryMutAct_9fa48("263") ? text : (stryCov_9fa48("263"), text.slice(1)) : text;
  return minus;
})());

/** Minutes as `45 s`, `7.5 min`, `1 h 30 min`, `120 h`; days only where hours say little (from 10 days on). */
export function showDuration(minutes: number): string {
  if (stryMutAct_9fa48("264")) {
    {}
  } else {
    stryCov_9fa48("264");
    const size = Math.abs(minutes);
    const sign = (stryMutAct_9fa48("268") ? minutes >= 0 : stryMutAct_9fa48("267") ? minutes <= 0 : stryMutAct_9fa48("266") ? false : stryMutAct_9fa48("265") ? true : (stryCov_9fa48("265", "266", "267", "268"), minutes < 0)) ? '-' : '';
    if (stryMutAct_9fa48("273") ? size !== 0 : stryMutAct_9fa48("272") ? false : stryMutAct_9fa48("271") ? true : (stryCov_9fa48("271", "272", "273"), size === 0)) return '0 min';
    if (stryMutAct_9fa48("278") ? size >= 1 : stryMutAct_9fa48("277") ? size <= 1 : stryMutAct_9fa48("276") ? false : stryMutAct_9fa48("275") ? true : (stryCov_9fa48("275", "276", "277", "278"), size < 1)) return `${sign}${Number((stryMutAct_9fa48("280") ? size / 60 : (stryCov_9fa48("280"), size * 60)).toPrecision(3))} s`;
    if (stryMutAct_9fa48("284") ? size >= 60 : stryMutAct_9fa48("283") ? size <= 60 : stryMutAct_9fa48("282") ? false : stryMutAct_9fa48("281") ? true : (stryCov_9fa48("281", "282", "283", "284"), size < 60)) {
      if (stryMutAct_9fa48("285")) {
        {}
      } else {
        stryCov_9fa48("285");
        const rounded = Number(size.toPrecision(3));
        return (stryMutAct_9fa48("289") ? rounded < 60 : stryMutAct_9fa48("288") ? rounded > 60 : stryMutAct_9fa48("287") ? false : stryMutAct_9fa48("286") ? true : (stryCov_9fa48("286", "287", "288", "289"), rounded >= 60)) ? `${sign}1 h` : `${sign}${rounded} min`;
      }
    }
    const whole = Math.round(size);
    if (stryMutAct_9fa48("295") ? whole < 10 * 24 * 60 : stryMutAct_9fa48("294") ? whole > 10 * 24 * 60 : stryMutAct_9fa48("293") ? false : stryMutAct_9fa48("292") ? true : (stryCov_9fa48("292", "293", "294", "295"), whole >= (stryMutAct_9fa48("296") ? 10 * 24 / 60 : (stryCov_9fa48("296"), (stryMutAct_9fa48("297") ? 10 / 24 : (stryCov_9fa48("297"), 10 * 24)) * 60)))) {
      if (stryMutAct_9fa48("298")) {
        {}
      } else {
        stryCov_9fa48("298");
        const days = Math.round(stryMutAct_9fa48("299") ? whole * (24 * 60) : (stryCov_9fa48("299"), whole / (stryMutAct_9fa48("300") ? 24 / 60 : (stryCov_9fa48("300"), 24 * 60))));
        return `${sign}${grouped(String(days))} days`;
      }
    }
    const hours = Math.floor(stryMutAct_9fa48("302") ? whole * 60 : (stryCov_9fa48("302"), whole / 60));
    const rest = stryMutAct_9fa48("303") ? whole * 60 : (stryCov_9fa48("303"), whole % 60);
    return (stryMutAct_9fa48("306") ? rest === 0 && hours >= 100 : stryMutAct_9fa48("305") ? false : stryMutAct_9fa48("304") ? true : (stryCov_9fa48("304", "305", "306"), (stryMutAct_9fa48("308") ? rest !== 0 : stryMutAct_9fa48("307") ? false : (stryCov_9fa48("307", "308"), rest === 0)) || (stryMutAct_9fa48("311") ? hours < 100 : stryMutAct_9fa48("310") ? hours > 100 : stryMutAct_9fa48("309") ? false : (stryCov_9fa48("309", "310", "311"), hours >= 100)))) ? `${sign}${hours} h` : `${sign}${hours} h ${rest} min`;
  }
}