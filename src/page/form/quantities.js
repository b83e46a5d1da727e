// What a key allows, checked while it is typed. The words of units are those of the job file (src/units).

const IN3 = INCH ** 3, LB = 0.45359237, PSI = 0.006894757293168;
const QUANTITIES = {
  volume: {ft3: 1728 * IN3, 'ft^3': 1728 * IN3, 'cu ft': 1728 * IN3, 'cubic feet': 1728 * IN3, 'cu in': IN3, in3: IN3, 'in^3': IN3,
           gal: 231 * IN3, qt: 231 / 4 * IN3, pt: 231 / 8 * IN3, 'fl oz': 231 / 128 * IN3, mL: 1e3, ml: 1e3, litres: 1e6, liters: 1e6,
           L: 1e6, l: 1e6, cm3: 1e3, 'cm^3': 1e3, m3: 1e9, 'm^3': 1e9, mm3: 1},
  area: {'sq in': INCH ** 2, in2: INCH ** 2, 'in^2': INCH ** 2, 'sq ft': 144 * INCH ** 2, ft2: 144 * INCH ** 2, 'ft^2': 144 * INCH ** 2,
         mm2: 1, cm2: 100, m2: 1e6, 'm^2': 1e6},
  density: {'lb/ft3': LB / (1728 * IN3 * 1e-9), pcf: LB / (1728 * IN3 * 1e-9), 'kg/m3': 1, 'kg/L': 1000},
  mass: {lb: LB, lbs: LB, lbf: LB, kg: 1, N: 1 / 9.80665, kN: 1000 / 9.80665},
  stress: {psi: PSI, ksi: 1000 * PSI, 'N/mm2': 1, MPa: 1, kPa: 0.001, 'kN/m2': 0.001},
  share: {'%': 0.01, percent: 0.01}
};

/** A number with one of the units of its kind, in SI; NaN where it is none. */
function quantityOf(kind, text) {
  const found = plain(text).trim().match(new RegExp(`^${NUMBER}\\s*(.*)$`));
  const factor = found && QUANTITIES[kind][found[7]];
  return factor ? numberAt(found, 1) * factor : NaN;
}

/** 1/4 in/ft, 2 %, 1:48, 20 mm/m as a ratio. */
function fallOf(text) {
  const words = plain(text).trim(), sign = words.startsWith('-') ? -1 : 1;
  const found = words.replace(/^-/, '').match(new RegExp(`^\\s*${NUMBER}\\s*(.*)$`));
  if (!found) return NaN;
  const value = sign * numberAt(found, 1), unit = found[7];
  const run = unit.match(new RegExp(`^:\\s*${NUMBER}$`));
  if (run) return numberAt(run, 1) > 0 ? value / numberAt(run, 1) : NaN;
  if (/^(%|percent)$/.test(unit)) return value / 100;
  if (unit === 'mm/m') return value / 1000;
  return /^(in|")\s*(\/|per\b)\s*(ft|foot|')$/.test(unit) ? value / 12 : NaN;
}

/** The number a text stands for, by the key's kind; null for kinds that are no numbers. */
function numberOf(kind, text, inMm) {
  if (['length', 'lengths', 'reading', 'points', 'rows'].includes(kind)) return lengthOf(text, inMm);
  if (kind === 'integer') return /^-?\d+$/.test(text.trim()) ? Number(text) : NaN;
  if (kind === 'fall') return fallOf(text);
  return QUANTITIES[kind] ? quantityOf(kind, text) : null;
}

/** The single values of what is typed: of lists every entry. */
function entriesOf(kind, text) {
  if (kind === 'lengths' || kind === 'reading') return text.split(',').map((t) => t.trim()).filter(Boolean);
  if (kind === 'points' || kind === 'rows') return text.split(/[\n;,]/).map((t) => t.trim()).filter(Boolean);
  return [text.trim()];
}

/** Whether a reading is written as TOML has it, since there is more to it than a length: its tolerance, or who read it. */
const isMoreThanLength = (text) => /^[[{]/.test(text.trim());
/** What such a text holds; null while it is none. */
function valueOfToml(text) {
  try { return readToml('v = ' + text.trim()).v; } catch (fault) { return null; }
}

/** What a reading comes to: the mean of what several people read; NaN where it is none. */
function readingOf(text, inMm) {
  const value = isMoreThanLength(text) ? valueOfToml(text) ?? [] : entriesOf('reading', text);
  const all = [].concat(value).map((one) => lengthOf(String(one?.length !== undefined && typeof one === 'object' ? one.length : one), inMm));
  return all.length ? all.reduce((sum, mm) => sum + mm, 0) / all.length : NaN;
}

/** Why a text cannot stand for a key; empty where it can. A reading with more to it than a length is the program's to judge. */
function whyNot(key, text, unit) {
  if (!text.trim() || text.trim() === NONE) return '';
  if (key.kind === 'reading' && isMoreThanLength(text)) return valueOfToml(text) === null ? 'not understood: a bracket or a quote is open' : '';
  const range = key[unit].range;
  for (const entry of entriesOf(key.kind, text)) {
    const value = numberOf(key.kind, entry, unit === 'mm');
    if (Number.isNaN(value)) return `'${entry}' is not understood; write it like ${key[unit].usual.replace(/^\[+|\]+$/g, '')}`;
    const edge = range ? 1e-5 + 1e-9 * Math.abs(value) : 0;
    if (range && value !== null && (value < range.least - edge || value > range.greatest + edge)) return `allowed is ${range.words}`;
  }
  if (key.kind === 'points' && text.trim().split(/[\n;]/).some((line) => line.trim() && line.split(',').length !== 3))
    return 'a line has three lengths: from the left, from the entry, height';
  return '';
}
