// The base as readings say it lies in its wet bed, judged as `fallwright level` judges it (src/measure/as_set.cpp,
// src/rules/as_set.cpp): a test holds both against each other on random readings. Lengths in millimetres.

/** The plane that fits spots [x, y, z] best, by least squares of heights. Spots in a line give none across it. */
function bestPlane(spots) {
  const mean = (i) => spots.reduce((sum, s) => sum + s[i], 0) / spots.length;
  const o = [mean(0), mean(1), mean(2)];
  let xx = 0, xy = 0, yy = 0, xz = 0, yz = 0;
  for (const s of spots) {
    const [x, y, z] = s.map((v, i) => v - o[i]);
    xx += x * x, xy += x * y, yy += y * y, xz += x * z, yz += y * z;
  }
  const det = xx * yy - xy * xy;
  let gx = 0, gy = 0;
  if (det > 1e-12 * xx * yy && det > 0) gx = (xz * yy - yz * xy) / det, gy = (yz * xx - xz * xy) / det;
  else if (xx >= yy && xx > 0) gx = xz / xx;
  else if (yy > 0) gy = yz / yy;
  return {gx, gy, at: (x, y) => o[2] + gx * (x - o[0]) + gy * (y - o[1])};
}

/** A direction or place of a body that was tilted stiffly about a level axis, so that level planes slope by gx and gy. */
function tilted(v, gx, gy) {
  const slope = Math.hypot(gx, gy);
  if (!slope) return v;
  const c = 1 / Math.hypot(1, slope), s = slope * c, [a, b] = [gy / slope, -gx / slope];
  const along = (a * v[0] + b * v[1]) * (1 - c);
  return [v[0] * c + b * v[2] * s + a * along, v[1] * c - a * v[2] * s + b * along,
          v[2] * c + (a * v[1] - b * v[0]) * s];
}

const least = (list) => list.length ? Math.min(...list) : null;
const greatest = (list) => list.length ? Math.max(...list) : null;

/**
 * How the base lies. `readings`: [{place, value}], with a place of the card's data; `line`: of the level line above the
 * datum, or null; `down`: readings hang below it.
 */
function lying(card, facets, readings, down, line) {
  const spots = readings.map(({place, value}) => [place.x, place.y, (line ?? 0) + (down ? -value : value) - place.z]);
  const plane = bestPlane(spots), on = spots.map((s) => plane.at(s[0], s[1]));
  const lowest = least(spots.map((s) => s[2])), lowestOn = least(on);
  const found = {gx: plane.gx, gy: plane.gy, twist: greatest(spots.map((s, i) => Math.abs(s[2] - on[i]))),
                 over_length: plane.gx * card.length, over_width: plane.gy * card.width};
  found.points = spots.map((s, i) => ({name: readings[i].place.name, x: s[0], y: s[1], off: s[2] - lowest, plane: on[i] - lowestOn}));
  found.presses_end = setPresses(card, found.points);
  found.falls = facets.map((f) => {
    const n = tilted([f.fall * f.flow[0], f.fall * f.flow[1], 1], plane.gx, plane.gy);
    return {surface: f.surface, facet: f.facet, fall: Math.hypot(n[0], n[1]) / n[2], inward: n[1] / n[2]};
  });
  const height = (p) => tilted(p, plane.gx, plane.gy)[2], top = height(card.drain_top);
  const above = (points) => points.map((p) => height(p) - top);
  found.threshold_least = least(above(card.threshold));
  found.threshold_greatest = greatest(above(card.threshold));
  if (card.threshold.length) found.threshold_least = least([found.threshold_least, ...above(card.open_edges)]);
  found.upstand_least = least(above(card.upstands));
  if (line !== null) findHeights(card, plane, height, found);
  return found;
}

/** What a level line of known height tells as well: the drain's height, and what is left under the apron's foot. */
function findHeights(card, plane, height, found) {
  const [x, y, z] = card.drain_top;
  found.raised = plane.at(x, y);
  found.drain_body = z + found.raised - (height(card.drain_top) - height([x, y, card.drain_low]));
  const gaps = card.below_apron.map((p) => card.apron_foot - p[2] - plane.at(p[0], p[1]));
  found.apron_least = least(gaps), found.apron_greatest = greatest(gaps);
}

const NOT_HERE = {state: 'not-applicable'}, UNREAD = {state: 'not-checked'};
const byHeight = (mm) => mm === null ? NOT_HERE : {value: mm};

/** What each check looks at; the apron's advice goes with it, what else is to be done is one plan. */
const LOOKS = {
  'rim.fall-least': (card, f) => byHeight(least(f.falls.filter((x) => x.surface === 'base-floor').map((x) => x.fall))),
  'rim.fall-greatest': (card, f) => byHeight(greatest(f.falls.filter((x) => x.surface === 'base-floor').map((x) => x.fall))),
  'rim.threshold-least': (card, f) => byHeight(f.threshold_least),
  'rim.threshold-greatest': (card, f) => byHeight(f.threshold_greatest),
  'rim.threshold-inward': (card, f) => byHeight(least(f.falls.filter((x) => x.surface === 'threshold').map((x) => x.inward))),
  'rim.below-upstand': (card, f) =>
      f.threshold_greatest === null || f.upstand_least === null ? NOT_HERE : {value: f.upstand_least - f.threshold_greatest},
  'rim.riser': lookAtRiser,
  'rim.apron': lookAtApron,
  'rim.bed': lookAtBed,
  'rim.twist': (card, f) => placesRead(card, f.points) < 4 ? UNREAD : {value: f.twist}
};

/** At how many places the base was read: what lies at one corner is one. */
function placesRead(card, points) {
  const apart = [];
  for (const p of points)
    if (apart.every((q) => Math.hypot(p.x - q.x, p.y - q.y) > card.one_corner + 1e-5)) apart.push(p);
  return apart.length;
}

function lookAtRiser(card, found, limit) {
  if (found.drain_body === undefined || card.riser === null) return UNREAD;
  const most = card.riser_most;
  return {value: card.riser - found.drain_body, greatest: limit.own ? Math.min(most, limit.greatest ?? most) : most};
}

function lookAtApron(card, found, limit) {
  if (card.apron_foot === null) return NOT_HERE;
  if (found.apron_least === undefined || found.apron_least === null) return UNREAD;
  const bound = limit.least ?? limit.greatest;
  const high = bound !== null && found.apron_least < bound, gap = high ? found.apron_least : found.apron_greatest;
  return {value: gap, advice: high
      ? `cut the apron's foot off by ${textAtLeast(-gap, card.metric)}, or press the base down along the bench`
      : `set the seat block lower by ${textAtLeast(gap - (limit.greatest ?? gap), card.metric)}, or fill the joint below its apron`};
}

/**
 * Mortar under the base where that is least, between the gauges too; what stands above the line it was spread to touches none, and what wants
 * more under it than was spread lies hollow.
 */
function lookAtBed(card, found, limit) {
  if (found.raised === undefined) return UNREAD;
  const open = card.gauges.filter((g) => !g.clear), thick = (g) => thickNow(card, found, g), own = limit.own ? limit.greatest : null;
  const hollow = hollowNow(card, found), within = (most) => Math.min(most, own ?? most);
  if (!open.length || hollow === null) return UNREAD;
  const proud = greatest(open.map((g) => thick(g) - g.spread)), filled = card.bed.spread / card.bed.plan;
  if (hollow > 1e-5 && hollow > proud + 1e-5) return {value: filled + hollow, greatest: within(filled)};
  const over = open.find((g) => thick(g) - g.spread === proud);
  if (proud > 1e-5) return {value: over.spread + proud, greatest: within(over.spread)};
  const thin = least(bedsOf(card).map(thick)), most = greatest(open.map(thick)), lift = card.bed.one_lift;
  if (isLess(thin, limit.least ?? thin) || lift === null || !isLess(lift, most)) return {value: thin, greatest: own};
  if (card.bed.one_lift_broken === 'fail') return {value: most, greatest: within(lift)};
  const tell = (mm, up) => noBetter(mm, up, card.metric);
  return {value: thin, greatest: own, unjudged: `the bed is ${tell(most, true)} thick at ${open.find((g) => thick(g) === most).name}, and ` +
      `one lift holds ${tell(lift, false)}: lift the base, and place what is below that first, in a lift of its own`};
}

/** One check's outcome on what was found. */
function judged(check, card, found) {
  const look = check.held ? LOOKS[check.id]?.(card, found, check) ?? UNREAD : NOT_HERE;
  const result = {...check, greatest: look.greatest === undefined ? check.greatest : look.greatest, value: null, advice: look.advice, outcome: look.state};
  if (look.state) return result;
  result.value = look.value;
  const slack = check.unit === 'ratio' ? 1e-9 : 1e-5;
  const kept = (result.least === null || look.value >= result.least - slack) &&
               (result.greatest === null || look.value <= result.greatest + slack);
  result.outcome = kept ? 'pass' : check.broken;
  if (kept && look.unjudged) result.outcome = 'caution', result.advice = look.unjudged;
  if (check.missing || (check.assumed && kept)) result.outcome = 'not-checked', result.value = null;
  return result;
}

/** The reading without which the others agree; of several the one whose absence leaves the base nearest to level. */
function oddOne(found, allowed) {
  let odd = null, flattest = Infinity;
  for (const p of found.points) {
    const others = found.points.filter((q) => q !== p).map((q) => [q.x, q.y, q.off]), plane = bestPlane(others);
    const agree = others.every((s) => Math.abs(s[2] - plane.at(s[0], s[1])) <= allowed);
    const slope = Math.hypot(plane.gx, plane.gy);
    if (!agree || slope >= flattest - 1e-9) continue;
    flattest = slope;
    odd = {name: p.name, by: p.off - plane.at(p.x, p.y)};
  }
  return odd;
}

/** What to do next, and in which words. */
function verdictOn(card, found, results) {
  const more = (mm) => noBetter(mm, true, card.metric), nowhere = cannotLieSo(card, found, results);
  const readAgain = (words) => ({next: 'read again', words: `READ ${words}.`}), first = 'AGAIN before anyone presses: ';
  const bedAgain = 'lift the base and bed it again while the mortar is wet';
  const bent = results.find((r) => r.id === 'rim.twist');
  const disagree = bent && bent.outcome !== 'pass' && bent.value !== null && bent.greatest !== null;
  const odd = disagree ? oddOne(found, bent.greatest) : null;
  if (odd)
    return readAgain(`${first}${odd.name} disagrees with the others by ${more(Math.abs(odd.by))}; if it reads the same, ` +
                     (nowhere ? LOOK_AT_LINE : bedAgain));
  if (nowhere) return readAgain(first + nowhere);
  if (disagree)
    return readAgain(`the rim ${first}the readings disagree by ${more(found.twist)}; if they stay so, ${bedAgain}`);
  if (card.design_fails)
    return {next: 'mend the design', words: 'THE DESIGN FAILS when it lies level, and no pressing mends that: ' +
                                            `${card.design_fails}. Lift the base out.`};
  if (!results.some((r) => r.outcome === 'fail')) {
    const outside = meetOutside(card, found);
    for (const r of outside) {
      const press = pressedToMeet(card, found, results, r);
      if (press)
        return {next: 'press', words: `NOT YET: '${r.title}' ${r.outcome === 'fail' ? 'fails' : 'asks for care'}; ${press}. ` +
                                      'Then read the base again.'};
    }
    const fails = outside.find((r) => r.outcome === 'fail');
    if (fails) return {next: 'lift', words: `LIFT IT, or change the floor it meets: '${fails.title}' fails; ${fails.advice}.`};
    const open = results.filter((r) => r.outcome === 'not-checked').map((r) => `'${r.title}'`).join(', ');
    const careful = [...outside, ...results].filter((r) => r.outcome === 'caution')
        .map((r) => ` CAUTION, ${r.title}: ${r.advice ?? planOf(card, found, results).words}.`).join('');
    const titles = found.raised === undefined ? card.others_fail : card.others_fail_raised;
    const others = titles ? ` Other checks fail, and are mended more easily before the mortar sets: ${titles}.` : '';
    return {next: 'leave', words: (open
        ? `Nothing to press, as far as was read. NOT JUDGED: ${open}. If that holds, leave it, and let nobody step on it.`
        : 'Leave it, and let nobody step on it.') + careful + others};
  }
  const todo = planOf(card, found, results);
  if (todo.next === 'lift') return {next: 'lift', words: `LIFT IT: ${todo.words}.`};
  return {next: 'press', words: `NOT YET: ${todo.words}. Then read the base again.`};
}

/** Everything a page tells of readings. @pre at least three readings that do not lie along one side. */
function judgeLevel(card, facets, readings, down, line) {
  const found = lying(card, facets, readings, down, line);
  const results = card.checks.map((check) => judged(check, card, found));
  careWithinAMark(card, found, results);
  return {found, results, verdict: verdictOn(card, found, results)};
}

const SIDES = [['back left', 'back', 'back right'], ['front left', 'front', 'front right'],
               ['back left', 'left', 'front left'], ['back right', 'right', 'front right']];

/** Where on the rim a place lies: "front" of "threshold middle" and of "upstand front". */
const rimOf = (name) => name.replace(/^upstand /, '').replace(/^threshold (left|right)$/, 'front $1').replace(/^threshold middle$/, 'front');

/** Lines from side to side and from corner to corner. */
const ACROSS = [['left', 'right'], ['front', 'back'], ['back left', 'front right'], ['back right', 'front left']];

/** The narrowest strip that holds all places. */
function leastAcross(places) {
  let narrowest = Infinity;
  for (const a of places)
    for (const b of places) {
      const dx = b.x - a.x, dy = b.y - a.y, length = Math.hypot(dx, dy);
      if (!length) continue;
      const off = places.map((p) => ((p.x - a.x) * dy - (p.y - a.y) * dx) / length);
      narrowest = Math.min(narrowest, greatest(off) - least(off));
    }
  return narrowest;
}

/** Why readings tell nothing yet; empty where they do. */
function whyNoPlane(readings) {
  if (readings.length < 3) return readings.length ? `Read ${3 - readings.length} more.` : 'Read three places or more, not all along one side.';
  const allOf = (line) => readings.every((r) => line.includes(rimOf(r.place.name)));
  if (SIDES.some(allOf)) return 'All of them lie on one side; read another corner as well.';
  const handsBreadth = 100;
  const one = ACROSS.some(allOf) || leastAcross(readings.map((r) => r.place)) <= handsBreadth;
  return one ? 'All of them lie in one line; read a corner as well.' : '';
}
