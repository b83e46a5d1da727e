// What is to be done about a base that lies wrong in its wet bed, as the program says it (src/rules/pressing.cpp).

/** To the nearest mark; half way between two it is left, whatever rounding did. */
const toMarks = (card, planes) => planes.map((mm) => Math.max(0, Math.ceil(mm / card.mark_mm - 0.5 - 1e-5)) * card.mark_mm);

/** Whether a base that is pressed so, and read to the marks and pressed anew, reads level within five rounds. */
function pressesEnd(card, points, first) {
  const planeOf = (heights) => bestPlane(points.map((p, i) => [p.x, p.y, heights[i]]));
  let heights = points.map((p) => p.off), down = first;
  for (let round = 0; round < 5; ++round) {
    const pressed = planeOf(down);
    heights = heights.map((h, i) => h - pressed.at(points[i].x, points[i].y));
    const plane = planeOf(heights.map((h) => Math.floor(h / card.mark_mm + 0.5 + 1e-6) * card.mark_mm));
    const planes = points.map((p) => plane.at(p.x, p.y)), lowest = Math.min(...planes);
    down = toMarks(card, planes.map((mm) => mm - lowest));
    if (down.every((mm) => mm <= 0)) return true;
  }
  return false;
}

/** What each place is to go down by, as rules/press_rounds.cpp has it; whether that ends. */
function setPresses(card, points) {
  const told = (down, ends) => (points.forEach((p, i) => { p.down = down[i]; }), ends);
  const plain = toMarks(card, points.map((p) => p.plane));
  if (plain.every((mm) => mm <= 0) || pressesEnd(card, points, plain)) return told(plain, true);
  const highest = points.map((p, i) => i).sort((a, b) => {
    const apart = points[b].plane - points[a].plane;
    return Math.abs(apart) > 1e-5 ? apart : 0;
  });
  for (const mm of [card.mark_mm, card.mark_mm / 2])
    for (const place of highest) {
      const one = points.map((p, i) => (i === place ? mm : 0));
      if (points[place].plane > 1e-5 && pressesEnd(card, points, one)) return told(one, true);
    }
  return told(plain, false);
}

const pressAt = (card, point) => point.down;

/** Whether no place stands higher than the rule tells from the lowest: what a tilt breaks then asks for care. */
const readsLevel = (card, found) => found.points.every((p) => pressAt(card, p) <= 0);
const BY_TILT = ['rim.fall-least', 'rim.fall-greatest', 'rim.threshold-least', 'rim.threshold-greatest',
                 'rim.threshold-inward', 'rim.below-upstand'];

function careWithinAMark(card, found, results) {
  if (!readsLevel(card, found) || card.design_fails) return;
  for (const r of results)
    if (r.outcome === 'fail' && BY_TILT.includes(r.id)) r.outcome = 'caution';
}

const LEVEL_NOW = 'nothing to press: the base is level within a mark of the rule';
const RAISE_INSTEAD = '; or raise the low side as much, with fresh mortar under it';
const LOOK_AT_LINE = 'look whether they are heights above the level line or distances below it, and how high that line hangs ' +
                     'above the datum';

const TO_AND_FRO = ' (by marks of this rule it goes to and fro: read it on a finer one, and press by less than a mark; what decides is the ';
const LAST_MARK = ' (the last mark of the rule: little by little, since each round lowers all of the base)';

function levelWords(card, found) {
  const down = found.points.filter((p) => pressAt(card, p) > 0);
  if (!down.length) return '';
  const most = Math.max(...down.map((p) => pressAt(card, p))), decides = down.find((p) => pressAt(card, p) === most);
  const last = down.every((p) => pressAt(card, p) <= card.mark_mm);
  return 'press down: ' + down.map((p) => `${p.name} ${ruleText(pressAt(card, p), card.metric)}`).join(', ') +
         (!found.presses_end ? `${TO_AND_FRO}${decides.name})` : last ? LAST_MARK : '');
}

/** The place that would have to go down farthest by more than the mortar under it, with that, where nobody read how high it lies. */
function pressedThrough(card, found) {
  const open = card.gauges.filter((g) => !g.clear);
  let worst = null;
  for (const p of found.points) {
    let nearest = null, away = Infinity;
    for (const g of open) {
      const d = Math.hypot(g.x - p.x, g.y - p.y);
      if (d < away) nearest = g, away = d;
    }
    if (!nearest || pressAt(card, p) < nearest.set) continue;
    if (!worst || pressAt(card, p) > pressAt(card, worst.point)) worst = {point: p, set: nearest.set};
  }
  return worst;
}

/** How thick the bed is at a gauge, as the base lies now. */
const thickNow = (card, found, g) =>
    g.set + found.raised + found.gx * (g.x - card.drain_top[0]) + found.gy * (g.y - card.drain_top[1]);

/** Where the bed may be thinnest: wherever base and bed touch, and at its gauges. */
const bedsOf = (card) => card.beds.map(([x, y, set]) => ({x, y, set})).concat(card.gauges.filter((g) => !g.clear));

/** By how much the space under the base is higher on average than the mortar that was spread would fill it. */
function hollowNow(card, found) {
  const bed = card.bed, [x, y] = bed.centre;
  if (bed.plan <= 0) return null;
  return (bed.set - bed.spread) / bed.plan + found.raised + found.gx * (x - card.drain_top[0]) + found.gy * (y - card.drain_top[1]);
}

const isLess = (a, b) => a < b - 1e-5;

/** A base whose height was read: what its riser and its bed say, now, pressed level, and pressed down as a whole. */
class Pressing {
  constructor(card, found, results) {
    const asking = (id) => results.find((r) => r.id === id && r.held && !r.missing);
    this.card = card, this.found = found;
    this.riser = card.riser === null || found.drain_body === undefined ? null : asking('rim.riser');
    const down = found.points.map((p) => [p.x, p.y, pressAt(card, p)]), open = card.gauges.filter((g) => !g.clear);
    const pressed = this.pressed = bestPlane(down);
    this.mostPressed = Math.max(0, ...down.map((s) => s[2]));
    this.bed = open.length ? asking('rim.bed') : null;
    this.leastBed = this.bed?.least ?? 0;
    const now = open.map((g) => thickNow(card, found, g)), level = open.map((g, i) => now[i] - pressed.at(g.x, g.y));
    const beds = bedsOf(card), thin = beds.map((b) => thickNow(card, found, b));
    this.thinNow = least(thin), this.thin = least(thin.map((mm, i) => mm - pressed.at(beds[i].x, beds[i].y)));
    this.spread = greatest(open.map((g) => g.spread));
    this.proudNow = greatest(open.map((g, i) => now[i] - g.spread));
    this.proud = this.bed ? greatest(open.map((g, i) => level[i] - g.spread)) : 0;
    this.standsOver = this.proud > 1e-5, this.thick = greatest(level);
    const hollow = hollowNow(card, found);
    if (this.bed && hollow !== null) this.proud = Math.max(this.proud, hollow - pressed.at(...card.bed.centre));
    const lift = card.bed.one_lift_broken === 'fail' ? card.bed.one_lift : null;
    this.oneLift = lift, this.overLift = this.bed && lift !== null ? Math.max(0, this.thick - lift) : 0;
    // The drain's body turns with the base about its top: upright it reaches lower, if by hundredths of a millimetre.
    const reaches = card.riser - found.drain_body, [x, y, z] = card.drain_top, high = z - card.drain_low;
    const tilted = high / Math.hypot(1, found.gx, found.gy), upright = high / Math.hypot(1, found.gx - pressed.gx, found.gy - pressed.gy);
    this.levelDown = pressed.at(x, y), this.reachesNow = reaches;
    this.reaches = reaches + pressed.at(x, y) + upright - tilted, this.reachesDesigned = reaches + found.raised + high - tilted;
    this.riserLeast = this.riser?.least ?? null, this.riserMost = this.riser?.greatest ?? null;
    this.short = this.riserLeast === null ? 0 : this.riserLeast - this.reaches;
    this.whole = Math.max(this.up(this.proud), this.up(this.short), this.up(this.overLift));
  }

  up(mm) { return Math.ceil(Math.max(mm, 0) / this.card.mark_mm - 1e-5) * this.card.mark_mm; }
  atLeast(mm) { return textAtLeast(mm, this.card.metric); }

  /** By how much its ribs would lie in the floor below it; nothing: by no more than readings of both are off. */
  sunk() { return this.bed && isLess(this.card.sunk, -this.thinNow) ? -this.thinNow : null; }

  /** By more than any bed is thick it would stand over it, or its ribs would lie in the floor. */
  isBeyondItsBed() { return Boolean(this.bed) && (this.proudNow > this.spread || this.sunk() !== null); }

  /** By how much it goes down as a whole so that a check of what stands in front of it holds, where all else allows that. */
  downToMeet(check) {
    if (!this.bed || !check.met || check.greatest === null) return null;
    const down = this.up(check.met.value - check.greatest), {card, found} = this;
    if (down <= 0 || isLess(this.thinNow - down, this.leastBed)) return null;
    if (this.riserMost !== null && isLess(this.riserMost, this.reachesNow + down)) return null;
    const then = meetOutside(card, lyingAt(card, found, found.raised - down, found.gx, found.gy));
    return then.some((r) => r.met && !keepsLimit(r, r.met.value)) ? null : down;
  }

  /** What a base that was pressed so lies too low for, and would not if it lay higher by as much. */
  tooLowOutside(down) {
    const fails = failsOutside(this.card, this.found, down, this.pressed);
    return fails && !failsOutside(this.card, this.found, down - fails.by, this.pressed) ? fails : null;
  }

  plan() {
    const lift = (words) => ({next: 'lift', words});
    if (this.bed && isLess(this.thinNow, this.leastBed))
      return lift(`it lies ${this.moreMortar(this.leastBed - this.thinNow)}`);
    if (this.riserMost !== null && isLess(this.riserMost, this.reaches + this.whole))
      return lift('lift the base and cut the riser off by ' +
                  this.atLeast(Math.max(this.reaches + this.whole, this.reachesDesigned) - this.riserMost));
    if (isLess(0, this.overLift) && isLess(this.thin - this.up(this.overLift), this.leastBed))
      return lift(`the bed under it is ${noBetter(this.thick, true, this.card.metric)} thick at its thickest, and one lift holds ` +
                  `${noBetter(this.oneLift, false, this.card.metric)}: lift it, and bed it again in two lifts, the lower one set hard first`);
    const tooLow = this.leastBed + this.up(this.proud) - this.thin;
    if (this.bed && isLess(this.thin - this.whole, this.leastBed))
      return lift(isLess(0, tooLow)
          ? `pressed level it would lie ${this.moreMortar(tooLow)}`
          : `lift the base and lengthen the riser by ${this.lengthened(0)}: the bed under it is ` +
            `${noBetter(this.thin, false, this.card.metric)} thick at its thinnest, and ${this.atLeast(this.leastBed)} of it must stay`);
    const low = this.tooLowOutside(this.levelDown + this.whole);
    if (low)
      return lift(`pressed ${this.whole > 0 ? 'down so' : 'level'} it would lie ${this.atLeast(low.by)} too low for what lies in ` +
                  `front of it ('${low.title}'): lift it, and bed it again level on more mortar` +
                  `${this.riserMeanwhile(Math.max(0, low.by - this.whole))}; or lower the bath's floor there by as much`);
    return {next: 'press', words: this.whole > 0 ? this.wholeWords() : this.levelAlone()};
  }

  /** What the riser is to be longer by where the base is bedded again, level and so much higher, or as it was designed. */
  longer(higher) {
    return this.riserLeast === null ? 0 : Math.max(0, this.short + higher, this.riserLeast - this.reachesDesigned);
  }
  lengthened(higher) { return this.atLeast(this.longer(higher)); }

  riserMeanwhile(higher) {
    return this.longer(higher) > 1e-5 ? `; lengthen the riser by ${this.lengthened(higher)} meanwhile` : '';
  }
  moreMortar(higher) {
    return `${this.atLeast(higher)} too low: lift it, and bed it again on more mortar${this.riserMeanwhile(higher)}`;
  }

  wholeWords() {
    const byBed = this.proud > 1e-5, byRiser = this.short > 1e-5, byLift = this.overLift > 1e-5, level = levelWords(this.card, this.found);
    return (level ? level + '; then ' : '') + `press the whole base down by ${ruleText(this.whole, this.card.metric)}` +
           (byBed ? this.standsOver ? ': it stands above the line the mortar was spread to, and bears on nothing there'
                                    : ': the mortar that was spread does not fill what is under it' : '') +
           (byLift && !byBed ? ': its bed is thicker than one lift may be' : '') +
           ((byBed || byLift) && byRiser ? '; and the riser reaches too little into the drain' : '') +
           (byRiser && !byBed && !byLift ? `, or lift it and lengthen the riser by ${this.lengthened(0)}` : '');
  }

  /** The low side may be raised instead where the riser still reaches, and the mortar that was spread. */
  levelAlone() {
    const level = levelWords(this.card, this.found);
    if (!level) return LEVEL_NOW;
    const bears = !this.bed || !isLess(0, this.proud + this.mostPressed);
    const reaches = this.riserLeast === null || !isLess(0, this.short + this.mostPressed);
    const meets = !failsOutside(this.card, this.found, this.levelDown - this.mostPressed, this.pressed);
    return level + (bears && reaches && meets ? RAISE_INSTEAD : '');
  }
}

/** Why no base lies where these readings put it; nothing where one can. */
function cannotLieSo(card, found, results) {
  if (found.raised === undefined) return null;
  const pressing = new Pressing(card, found, results), sunk = pressing.sunk();
  if (!pressing.isBeyondItsBed()) return null;
  const by = Math.abs(found.raised), readsAsDesigned = by <= (card.metric ? 0.1 : INCH / 64) / 2;  // half of what a good rule tells
  const lies = readsAsDesigned ? 'out of level past its bed'
                               : `${ruleText(by, card.metric)} ${found.raised < 0 ? 'lower' : 'higher'} than designed`;
  const within = sunk === null ? '' : `, its ribs ${ruleText(sunk, card.metric)} in the floor`;
  return `by these readings the base lies ${lies}${within}, and no base lies so: ${LOOK_AT_LINE}`;
}

/** What to do, in the order of doing it. */
function planOf(card, found, results) {
  if (found.raised !== undefined) return new Pressing(card, found, results).plan();
  const deep = pressedThrough(card, found), level = levelWords(card, found);
  if (deep)
    return {next: 'lift', words: `the ${deep.point.name} would have to go down ${ruleText(pressAt(card, deep.point), card.metric)}, ` +
                                 `and the bed there is ${noBetter(deep.set, false, card.metric)} thick: take mortar off, and bed it again`};
  return {next: 'press', words: level ? level + RAISE_INSTEAD : LEVEL_NOW};
}
