// What was measured, and its limit, in the program's words (src/rules/words.cpp): nothing reads better than it is.

/** The next multiple of a step, up or down; the nearest where that is the value itself, but for rounding. */
function toStep(value, step, up, same) {
  const nearest = Math.round(value / step) * step;
  return Math.abs(nearest - value) <= same ? nearest : (up ? Math.ceil : Math.floor)(value / step) * step;
}

/** A fall in both its forms: as "1:48.7" it is less by a longer run. What is a fraction of an inch stays one. */
function fallNoBetter(ratio, up, metric) {
  if (Math.abs(ratio) < 1e-9) return fallText(ratio, metric);
  const text = (r) => metric ? `${(r * 100).toFixed(2)} %` : inchesPerFoot(r), nearest = text(ratio);
  const run = toStep(1 / ratio, 0.1, !up, 1e-9 / ratio ** 2), whole = Math.abs(run - Math.round(run)) < 1e-5;
  const slope = !metric && !nearest.includes('.') ? nearest : text(toStep(ratio, metric ? 1e-4 : 1 / 12000, up, 1e-9));
  return `${slope} (1:${Math.abs(run).toFixed(whole ? 0 : 1)})`;
}

/** Down to 1/64 inch or a tenth of a millimetre. */
function textAtMost(mm, metric) {
  if (metric) {
    const tenths = Math.floor(mm * 10 + 1e-6) / 10;
    return `${tenths.toFixed(tenths === Math.floor(tenths) ? 0 : 1)} mm`;
  }
  const marks = Math.floor(mm / INCH * 64 + 1e-6);
  return `${marks < 0 ? '-' : ''}${fraction(Math.abs(marks), 64)}"`;
}

/** A greatest limit: on the tape's marks where it is so long that nobody reads tenths, or 64ths. */
function greatestText(mm, metric) {
  const inTenths = 20, mark = metric ? 1 : INCH / 16;
  return mm >= inTenths ? tapeText(Math.floor(mm / mark + 1e-6) * mark, metric) : textAtMost(mm, metric);
}

/** A least limit: up to a tenth of a millimetre where tenths are read. */
function leastText(mm, metric) {
  const inTenths = 20;
  return metric && mm < inTenths ? textAtMost(Math.ceil(mm * 10 - 1e-4) / 10, metric) : textAtLeast(mm, metric);
}

/** Up to 1/64 inch or a tenth of a millimetre. */
function ruleAtLeast(mm, metric) {
  const mark = metric ? 0.1 : INCH / 64;
  return textAtMost(Math.ceil((mm - 1e-5) / mark) * mark, metric);
}

/** A length between two marks of the tape, further from both than anybody cuts: a limit there is rounded inward. */
function isBetweenMarks(mm, metric) {
  const mark = metric ? 1 : INCH / 16;
  return ruleText(mm, metric) === tapeText(mm, metric) && Math.abs(Math.round(mm / mark) * mark - mm) > 0.1;
}

class Told {
  /** @param result a check with its value, limits and unit */
  constructor(result, metric) {
    Object.assign(this, {result, metric, ratio: result.unit === 'ratio', fine: false});
    this.fine = this.readsAsBroken() !== null;  // where a kept limit would read as broken on the tape's marks
  }

  slack() { return this.ratio ? 1e-9 : 1e-5; }
  under() { return this.result.least !== null && this.result.value < this.result.least - this.slack(); }
  over() { return this.result.greatest !== null && this.result.value > this.result.greatest + this.slack(); }

  nearest(value) { return (this.ratio ? fallText : ruleText)(value, this.metric); }
  noBetter(value, up) {
    if (this.ratio) return fallNoBetter(value, up, this.metric);
    if (!this.fine) return noBetter(value, up, this.metric);
    return textAtMost(toStep(value, this.metric ? 0.1 : INCH / 64, up, 1e-3), this.metric);
  }
  least() { return this.bound(this.result.least, this.fine ? ruleAtLeast : leastText); }
  greatest() { return this.bound(this.result.greatest, this.fine ? textAtMost : greatestText); }
  bound(value, inward) { return !this.ratio && isBetweenMarks(value, this.metric) ? inward(value, this.metric) : this.nearest(value); }

  limit() {
    const {least, greatest} = this.result;
    if (least !== null && greatest !== null) return `${this.least()} to ${this.greatest()}`;
    if (least !== null) return `at least ${this.least()}`;
    return greatest === 0 ? 'none allowed' : greatest !== null ? `at most ${this.greatest()}` : 'as the job file asks';
  }

  /** The limit that a length keeps although both, each rounded as it must be, read as if it did not. */
  readsAsBroken() {
    const {value, least, greatest} = this.result, read = (text) => lengthOf(text.replace(/^\D*?(?=[-\d])/, ''), this.metric);
    if (this.ratio || value === null || this.under() || this.over()) return null;
    if (least !== null && read(this.noBetter(value, false)) < read(this.least()) - 1e-3) return this.least();
    if (greatest !== null && read(this.noBetter(value, true)) > read(this.greatest()) + 1e-3) return this.greatest();
    return null;
  }

  measured() {
    const {value, least, greatest} = this.result, nearest = this.nearest(value), broken = this.under() || this.over();
    const byTape = broken && this.result.outcome === 'pass' ? ', at its limit as far as the tape tells' : '';
    const just = (side) => (byTape ? '' : `just ${side} `) + nearest + byTape;
    if (broken && least !== null && value < least && nearest === this.least()) return just('under');
    if (broken && greatest !== null && value > greatest && nearest === this.greatest()) return just('over');
    const kept = this.readsAsBroken();
    if (kept !== null) return `just at ${kept}`;
    if (least === null && greatest === null) return nearest;
    return this.noBetter(value, least === null || (greatest !== null && value - least >= greatest - value)) + byTape;
  }
}

/** "just under 1/2", limit 1/2" to 3-5/8"". */
function foundAndLimit(result, metric) {
  const told = new Told(result, metric), limit = told.limit();
  return told.measured() + (limit === 'none allowed' ? ', ' : ', limit ') + limit;
}

/** A fall as the check that found it tells it, of several the one with least room. */
function fallAsChecked(fall, results, metric) {
  const room = ({value, least, greatest}) => Math.min(least === null ? Infinity : value - least,
      greatest === null ? Infinity : greatest - value) / Math.abs(greatest || least || 1);
  const [told] = results.filter((r) => r.unit === 'ratio' && r.value !== null && Math.abs(r.value - fall) <= 1e-9)
      .sort((a, b) => room(a) - room(b));
  return told ? new Told(told, metric).measured() : fallText(fall, metric);
}
