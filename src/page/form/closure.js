// Whether four sides and two diagonals close, while they are typed; as src/survey/closure.cpp has it, which a test holds
// beside it.

const SIDES_OF_PLAN = [['back', 'bl', 'br'], ['front', 'fl', 'fr'], ['left', 'bl', 'fl'], ['right', 'br', 'fr'],
                       ['diagonal_from_back_left', 'bl', 'fr'], ['diagonal_from_back_right', 'br', 'fl']];
const figureOf = (v) => ({bl: [0, 0], br: [v[0], 0], fl: [v[1], v[2]], fr: [v[3], v[4]]});
const between = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Solves a x = b by elimination; null where it cannot be. */
function solveLinear(a, b) {
  const n = b.length, m = a.map((row, i) => [...row, b[i]]);
  for (let k = 0; k < n; k++) {
    const pivot = m.slice(k).reduce((best, row, i) => (Math.abs(row[k]) > Math.abs(m[best][k]) ? k + i : best), k);
    [m[k], m[pivot]] = [m[pivot], m[k]];
    if (Math.abs(m[k][k]) < 1e-14) return null;
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const f = m[i][k] / m[k][k];
      for (let j = k; j <= n; j++) m[i][j] -= f * m[k][j];
    }
  }
  return m.map((row, i) => row[n] / row[i]);
}

/** The figure that fits readings [name, mm, tolerance] best, from a rectangle on; null where there is none. */
function fitFigure(readings) {
  const read = (...names) => readings.find((r) => names.includes(r[0]))?.[1] ?? 0;
  const wide = read('back') || read('front'), deep = read('left') || read('right');
  let v = [wide, 0, -deep, wide, -deep];
  const length = (name, at) => {
    const [, a, b] = SIDES_OF_PLAN.find((s) => s[0] === name), f = figureOf(at);
    return between(f[a], f[b]);
  };
  for (let round = 0; round < 60; round++) {
    const rows = readings.map(([name, mm, tolerance]) => ({
      off: (mm - length(name, v)) / tolerance,
      slope: v.map((_, k) => {
        const at = (h) => length(name, v.map((x, i) => (i === k ? x + h : x)));
        return (at(1e-3) - at(-1e-3)) / 2e-3 / tolerance;
      })
    }));
    const normal = v.map((_, i) => v.map((__, j) => rows.reduce((sum, r) => sum + r.slope[i] * r.slope[j], 0)));
    const step = solveLinear(normal, v.map((_, i) => rows.reduce((sum, r) => sum + r.slope[i] * r.off, 0)));
    if (!step || !step.every(Number.isFinite)) return null;
    v = v.map((x, i) => x + step[i]);
    if (Math.max(...step.map(Math.abs)) < 1e-7) return {figure: figureOf(v), length: (name) => length(name, v)};
  }
  return null;
}

/** How far a figure is from a rectangle. */
function outOfSquare({bl, br, fl, fr}) {
  return Math.hypot(between(bl, br) - between(fl, fr), between(bl, fl) - between(br, fr), between(bl, fr) - between(br, fl));
}

/**
 * `readings`: [name, mm, tolerance]. Tells `worst` in tolerances, for each reading what it would be if the others hold,
 * and the one to read again first, where the room would be far nearer to square by it than by any other. Null: too few, or no figure.
 */
function closes(readings) {
  const fit = readings.length >= 5 ? fitFigure(readings) : null;
  if (!fit) return null;
  const worst = Math.max(...readings.map(([name, mm, tolerance]) => Math.abs(mm - fit.length(name)) / tolerance));
  if (readings.length < 6) return {worst, others: null, suspect: ''};
  const without = readings.map((r) => fitFigure(readings.filter((q) => q !== r)));
  const scores = without.map((f) => (f ? outOfSquare(f.figure) : Infinity)), best = scores.indexOf(Math.min(...scores));
  const clear = scores.every((s, i) => i === best || s >= 2 * scores[best]);
  return {worst, others: without.map((f, i) => (f ? f.length(readings[i][0]) : null)), suspect: worst > 1 && clear ? readings[best][0] : ''};
}
