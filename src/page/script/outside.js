// What stands in front of a base as it lies in its wet bed, as the program meets it (src/rules/heights.cpp, outside.hpp):
// a threshold and the bath's floor, or the edges of a base that is rolled into. Heights in millimetres.

/** How far a place of the base came to lie above where it was designed. */
const raisedAt = (card, lies, x, y) => lies.raised + lies.gx * (x - card.drain_top[0]) + lies.gy * (y - card.drain_top[1]);

/** The same of the ends of a side, least and greatest. */
function movedSide(card, lies, side) {
  const [x0, y0, x1, y1] = card.outside.base, x = side === 'right' ? x1 : x0, y = side === 'back' ? y1 : y0;
  const ends = [raisedAt(card, lies, x, y),
                side === 'front' || side === 'back' ? raisedAt(card, lies, x1, y) : raisedAt(card, lies, x, y1)];
  return [Math.min(...ends), Math.max(...ends)];
}

/** The base lying so much above its design at the drain, and leaning so. */
function lyingAt(card, found, raised, gx, gy) {
  const lies = {raised, gx, gy, threshold_least: found.threshold_least, threshold_greatest: found.threshold_greatest};
  const {threshold: [low, high], drain_top, edges} = card.outside, [leastMoved, mostMoved] = movedSide(card, lies, 'front');
  if (lies.threshold_greatest !== null && high !== null) lies.threshold_greatest = high - drain_top + mostMoved - raised;
  if (lies.threshold_least === null || low === null) return lies;
  lies.threshold_least = low - drain_top + leastMoved - raised;
  for (const edge of edges.filter((e) => e.side !== 'front'))
    lies.threshold_least = Math.min(lies.threshold_least, edge.top[0] - drain_top + movedSide(card, lies, edge.side)[0] - raised);
  return lies;
}

/** What each check measures of a base that lies so, and whether it is to lie higher; null: nothing. */
const OUTSIDE = {
  'threshold.above-outside': (card, lies) => {
    const {threshold: [low], drain_top, floor, edges} = card.outside;
    if (lies.threshold_least === null || low === null) return null;
    let spill = low, before = floor;  // the lowest edge that water leaves over, and the floor before that
    for (const edge of edges.filter((e) => e.side !== 'front'))
      if (edge.top[0] < spill) spill = edge.top[0], before = edge.floor;
    return {value: drain_top + lies.raised + lies.threshold_least - before[1], higher: true};
  },
  'threshold.step-outside': (card, lies) => {
    if (lies.threshold_least === null || lies.threshold_greatest === null) return null;
    const {drain_top, floor} = card.outside, at = drain_top + lies.raised;
    const up = at + lies.threshold_greatest - floor[0], down = floor[1] - (at + lies.threshold_least);
    return {value: Math.max(up, down), higher: down > up};
  },
  'entry.step': (card, lies) => {
    let worst = null;
    for (const edge of card.outside.edges.filter((e) => !e.raised)) {
      const [low, high] = movedSide(card, lies, edge.side);
      for (const by of [edge.top[0] + low - edge.floor[1], edge.top[1] + high - edge.floor[0]])
        if (worst === null || Math.abs(by) > Math.abs(worst)) worst = by;
    }
    return worst === null ? null : {value: Math.abs(worst), higher: worst < 0};
  }
};

const keepsLimit = (check, value) => (check.least === null || value >= check.least - 1e-5) &&
                                     (check.greatest === null || value <= check.greatest + 1e-5);

/** By how much a value fails a check. */
const failsBy = (check, value) => Math.max((check.least ?? value) - value, value - (check.greatest ?? value));

/** The checks of it that apply to a base whose height was read, as it lies. */
function meetOutside(card, lies) {
  if (!card.outside || lies.raised === undefined) return [];
  const asked = Object.keys(OUTSIDE).map((id) => card.outside.checks.find((check) => check.id === id && check.applies));
  return asked.filter(Boolean).map((check) => {
    const met = check.held && !check.missing ? OUTSIDE[check.id](card, lies) : null;
    const kept = met && keepsLimit(check, met.value);
    const outcome = !met || (check.assumed && kept) ? 'not-checked' : kept ? 'pass' : check.broken;
    return {...check, outcome, met, advice: met && !kept ? beddedAgain(card, check, met) : ''};
  });
}

/** What is left to do of a base that lies in its bed already. */
function beddedAgain(card, check, met) {
  const by = textAtLeast(failsBy(check, met.value), card.metric);
  return `lift it while the mortar is wet and bed it again ${by} ${met.higher ? 'higher' : 'lower'}, or ` +
         `${met.higher ? 'lower' : 'raise'} the bath's floor in front of the entry by as much`;
}

/** How far a base that was pressed so would fail what stands in front of it, where it fails most. */
function failsOutside(card, found, down, pressed) {
  if (!card.outside) return null;
  const lies = lyingAt(card, found, found.raised - down, found.gx - pressed.gx, found.gy - pressed.gy);
  let worst = null;
  for (const r of meetOutside(card, lies)) {
    if (!r.met || keepsLimit(r, r.met.value) || r.broken !== 'fail') continue;
    const by = failsBy(r, r.met.value);
    if (!worst || by > worst.by) worst = {title: r.title, by};
  }
  return worst;
}

/** How a base that lies level, and too high for one of these checks, comes down to it; null where none of that helps. */
function pressedToMeet(card, found, results, check) {
  const broken = check.outcome === 'fail' || check.outcome === 'caution';
  if (!broken || results.some((r) => r.outcome === 'fail') || cannotLieSo(card, found, results)) return null;
  const down = new Pressing(card, found, results).downToMeet(check);
  return down === null ? null : `press the whole base down by ${ruleText(down, card.metric)} while its mortar is wet`;
}
