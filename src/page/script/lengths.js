// Lengths and falls as the program writes them (src/units, src/rules): tests hold the two against each other.

const INCH = 25.4;
const gcd = (a, b) => (b ? gcd(b, a % b) : a);

/** "17-1/2" from 280 sixteenths, or of any other denominator. */
function fraction(count, of) {
  const whole = Math.floor(count / of), part = count % of;
  if (!part) return String(whole);
  const common = gcd(part, of);
  return `${whole ? whole + '-' : ''}${part / common}/${of / common}`;
}

/** As a tape shows it: to 1/16 inch or a millimetre. */
function tapeText(mm, metric) {
  const size = Math.abs(mm);
  const count = metric ? Math.round(size) : Math.round(size / INCH * 16);
  const sign = mm < 0 && count ? '-' : '';
  return metric ? `${sign}${count} mm` : `${sign}${fraction(count, 16)}"`;
}

/** As a good rule shows it: what would all but vanish on a tape to 1/64 inch or a tenth of a millimetre. */
function ruleText(mm, metric) {
  const size = Math.abs(mm);
  if (metric && size < 3 && Math.abs(size - Math.round(size)) > 0.05) return `${mm.toFixed(1)} mm`;
  const marks = size / INCH * 64;
  if (metric || marks >= 12 || Math.abs(marks - 4 * Math.round(marks / 4)) <= 0.4) return tapeText(mm, metric);
  const n = Math.round(marks);
  return n ? `${mm < 0 ? '-' : ''}${fraction(n, 64)}"` : '0"';
}

/** Rounded up to the next mark of the tape, for advice that must still hold once it is rounded. */
function textAtLeast(mm, metric) {
  const mark = metric ? 1 : INCH / 16;
  return ruleText(Math.ceil((mm - 1e-5) / mark) * mark, metric);
}

/** As a person reads it, rounded so that it reads no better than it is: a fault up, what is left down. A small one to
    1/32 inch or a tenth of a millimetre; what is less than one of these marks as such. */
function noBetter(mm, fault, metric) {
  const same = 0.01, sameOnRule = 1e-3, small = 4.7;  // no tape tells a hundredth of a millimetre
  const on = (step, near = same) => {
    const nearest = Math.round(mm / step) * step;
    return Math.abs(nearest - mm) <= near ? nearest : (fault ? Math.ceil : Math.floor)(mm / step) * step;
  };
  const tape = on(metric ? 1 : INCH / 16);
  if (Math.abs(tape - mm) <= same || Math.abs(mm) >= small) return tapeText(tape, metric);
  const fine = metric ? 0.1 : INCH / 32, marks = Math.round(on(fine, sameOnRule) / fine);
  const text = (n) => (n < 0 ? '-' : '') +
      (metric ? `${(Math.abs(n) / 10).toFixed(n % 10 ? 1 : 0)} mm` : `${fraction(Math.abs(n), 32)}"`);
  if (!marks || Math.abs(mm) >= fine - sameOnRule) return text(marks);
  return mm < 0 ? `just under ${text(0)}` : `under ${text(1)}`;
}

/** "1/4 in/ft (1:48)" or "2.08 % (1:48)". */
function fallText(ratio, metric) {
  const slope = metric ? `${(ratio * 100).toFixed(2)} %` : inchesPerFoot(ratio);
  return `${slope} (${oneIn(Math.abs(ratio))})`;
}

function inchesPerFoot(ratio) {
  if (ratio < 0) return '-' + inchesPerFoot(-ratio);
  const value = ratio * 12, count = Math.round(value * 64);
  if (!count || Math.abs(value * 64 - count) > 64 * 12 * 1e-9) return `${value.toFixed(3)} in/ft`;
  return `${fraction(count, 64)} in/ft`;
}

function oneIn(ratio) {
  if (Math.abs(ratio) < 1e-9) return 'level';
  const run = 1 / ratio;
  return `1:${run.toFixed(Math.abs(run - Math.round(run)) < 0.005 ? 0 : 1)}`;
}

/** Typographic quotes and fractions as people paste them, in plain characters. */
const plain = (text) => text.replace(/[′’]/g, "'").replace(/[″”]/g, '"').replace(/½/g, ' 1/2').replace(/¼/g, ' 1/4')
    .replace(/¾/g, ' 3/4').replace(/[–−]/g, '-');

const NUMBER = String.raw`(?:(\d+)\s*[- ]\s*(\d+)\s*/\s*(\d+)|(\d+)\s*/\s*(\d+)|(\d+\.?\d*|\.\d+))`;
const UNITS = [[/^(?:"|''|inches|inch|in\.?)$/, INCH], [/^(?:'|feet|foot|ft\.?)$/, 12 * INCH], [/^mm$/, 1], [/^cm$/, 10], [/^m$/, 1000]];

/** The number of a match of NUMBER whose groups begin at `i`: "17 1/2", "1/8", "3.25". */
function numberAt(match, i) {
  if (match[i]) return Number(match[i]) + match[i + 1] / match[i + 2];
  if (match[i + 3]) return match[i + 3] / match[i + 4];
  return Number(match[i + 5]);
}

/**
 * Reads the trade's notation: 5 ft 4-1/2 in, 5'-4 1/2", 64-1/2, .5 in, 1640 mm, 1.64 m. A bare number is in the job's
 * unit. Gives millimetres, or NaN where the text is no length.
 */
function lengthOf(text, metric) {
  const words = plain(text).trim(), sign = words.startsWith('-') ? -1 : 1, rest = words.replace(/^[-+]\s*/, '');
  const feet = rest.match(new RegExp(`^${NUMBER}\\s*(?:'(?!')|feet|foot|ft\\.?)\\s*-?\\s*${NUMBER}\\s*(?:"|''|inches|inch|in\\.?)?$`));
  if (feet) {
    const inches = numberAt(feet, 7);
    return inches < 12 ? sign * (numberAt(feet, 1) * 12 + inches) * INCH : NaN;
  }
  const one = rest.match(new RegExp(`^${NUMBER}\\s*(\\D*)$`));
  if (!one) return NaN;
  if (!one[7]) return sign * numberAt(one, 1) * (metric ? 1 : INCH);
  const unit = UNITS.find(([name]) => name.test(one[7].trim()));
  return unit ? sign * numberAt(one, 1) * unit[1] : NaN;
}
