// The wet-mortar card: readings are typed where they are taken, round a plan, and answered at once.

const card = dataOf('level-data');
const cardFacets = dataOf('view-data').facets.filter((f) => f.surface !== 'seat');
const RIM_GRID = ['back left', 'back', 'back right', 'left', null, 'right', 'front left', 'front', 'front right'];

class RimCard {
  constructor(holder) {
    this.fields = new Map();
    this.down = make('select', {id: 'rim-down'}, make('option', {value: ''}, 'heights above a level line'),
                     make('option', {value: 'down'}, 'distances below a level line, as under a laser'));
    this.line = this.field('rim-line');
    this.line.placeholder = card.metric ? 'like 1000' : 'like 40 in';
    this.answer = make('output', {className: 'answer', id: 'rim-answer'});
    this.answer.setAttribute('aria-live', 'polite');
    holder.replaceChildren(make('h3', {}, 'Read the rim, get the answer'), this.options(), this.grid('', 'On the rim', true),
                           ...this.more(), this.answer, button('Clear all readings', () => this.clear()));
    this.restore();
    holder.addEventListener('input', () => this.tell());
    this.tell();
  }

  field(id, words = '') {
    const input = make('input', {id, autocomplete: 'off', inputMode: 'text', placeholder: card.metric ? 'mm' : 'like 1/8'});
    if (words) input.setAttribute('aria-label', words);
    return input;
  }

  options() {
    const row = (words, input) => make('p', {}, make('label', {htmlFor: input.id}, words), ' ', input);
    return make('div', {className: 'options'}, row('Readings are', this.down),
                row('The level line hangs above the datum by (leave empty if nobody knows)', this.line));
  }

  /** Nine places as they lie; the entry is below. */
  grid(prefix, heading, open) {
    const cells = RIM_GRID.map((name) => {
      const place = name && card.places.find((p) => p.name === prefix + name);
      if (!place) return make('div', {className: name ? 'no-place' : 'middle'}, name ? '' : heading);
      const input = this.field('at-' + place.name.replace(/ /g, '-'));
      this.fields.set(place.name, {place, input});
      return make('div', {}, make('label', {htmlFor: input.id}, name), input);
    });
    const grid = make('div', {className: 'rim-grid'}, ...cells);
    return open ? grid : make('details', {}, make('summary', {}, heading), grid);
  }

  /** Tops of upstands and the threshold's outer edge, where the base has them. */
  more() {
    const parts = [];
    if (card.places.some((p) => p.name.startsWith('upstand '))) parts.push(this.grid('upstand ', 'On the upstands\' tops', false));
    const threshold = card.places.filter((p) => p.name.startsWith('threshold '));
    if (!threshold.length) return parts;
    const order = ['threshold left', 'threshold middle', 'threshold right'];
    const cells = order.map((name) => threshold.find((p) => p.name === name)).filter(Boolean).map((place) => {
      const input = this.field('at-' + place.name.replace(/ /g, '-'));
      this.fields.set(place.name, {place, input});
      return make('div', {}, make('label', {htmlFor: input.id}, place.name), input);
    });
    parts.push(make('details', {}, make('summary', {}, 'On the threshold\'s outer top edge'),
                    make('div', {className: 'rim-grid'}, ...cells)));
    return parts;
  }

  /** What is typed, in the order of the places; a text that is no length is marked. */
  readings() {
    const read = [];
    for (const {place, input} of this.fields.values()) {
      const value = input.value.trim() ? lengthOf(input.value, card.metric) : null;
      input.setAttribute('aria-invalid', String(Number.isNaN(value)));
      if (value !== null && !Number.isNaN(value)) read.push({place, value});
    }
    return read;
  }

  tell() {
    const readings = this.readings(), why = whyNoPlane(readings);
    const line = this.line.value.trim() ? lengthOf(this.line.value, card.metric) : null;
    this.line.setAttribute('aria-invalid', String(Number.isNaN(line)));
    this.keep();
    if (why || Number.isNaN(line)) {
      this.answer.replaceChildren(make('p', {className: 'quiet'}, why || 'The height of the level line is no length.'));
      return;
    }
    this.show(judgeLevel(card, cardFacets, readings, this.down.value === 'down', line));
  }

  show({found, results, verdict}) {
    const unread = results.some((r) => r.outcome === 'not-checked');
    const state = verdict.next !== 'leave' ? 'fail' : unread ? 'open' : 'pass';
    const press = found.points.filter((p) => pressAt(card, p) > 0).sort((a, b) => b.plane - a.plane);
    const mark = make('span', {className: 'mark', 'aria-hidden': 'true'}, {fail: '✕', open: '?', pass: '✓'}[state]);
    const parts = [make('p', {className: `verdict ${state}`}, mark, make('span', {}, verdict.words))];
    if (press.length && verdict.next === 'press')
      parts.push(make('h4', {}, 'Press, the highest first'), make('ol', {className: 'press'}, ...press.map((p) =>
        make('li', {}, make('strong', {}, ruleText(pressAt(card, p), card.metric)), ` ${p.name}`))));
    parts.push(make('h4', {}, 'Falls now'), make('ul', {className: 'falls'}, ...found.falls.map((f) =>
      make('li', {}, `${f.surface === 'base-floor' ? 'floor' : f.surface}, ${f.facet}: `, make('strong', {},
        fallAsChecked(f.surface === 'threshold' ? f.inward : f.fall, results, card.metric))))));
    const told = results.filter((r) => r.outcome !== 'not-applicable');
    parts.push(make('h4', {}, 'Checks as it lies'), make('ul', {className: 'falls'}, ...told.map((r) => this.lineOf(r))));
    this.answer.replaceChildren(...parts);
  }

  lineOf(result) {
    const signs = {pass: ['pass', '✓ passes'], fail: ['fail', '✕ fails'], caution: ['caution', '! care'], 'not-checked': ['open', '? to read']};
    const [name, words] = signs[result.outcome];
    const value = result.value === null ? '' : ': ' + foundAndLimit(result, card.metric);
    return make('li', {}, make('span', {className: `badge ${name}`}, words), ` ${result.title.replace('as set, ', '')}${value}`);
  }

  clear() {
    for (const {input} of this.fields.values()) input.value = '';
    this.tell();
  }

  /** Kept on this phone until it is cleared; a browser that keeps nothing is no fault. */
  store() {
    try { return window.localStorage; } catch (e) { return null; }
  }
  name() { return 'fallwright rim ' + card.key; }
  keep() {
    const typed = {};
    for (const [name, {input}] of this.fields) if (input.value) typed[name] = input.value;
    try { this.store()?.setItem(this.name(), JSON.stringify({typed, down: this.down.value, line: this.line.value})); } catch (e) { /* full */ }
  }
  restore() {
    let kept = null;
    try { kept = JSON.parse(this.store()?.getItem(this.name()) ?? 'null'); } catch (e) { /* not ours */ }
    if (!kept || typeof kept.typed !== 'object') return;
    for (const [name, words] of Object.entries(kept.typed)) if (this.fields.has(name)) this.fields.get(name).input.value = words;
    this.down.value = kept.down ?? '';
    this.line.value = kept.line ?? '';
  }
}

const rimCard = $('rim') && new RimCard($('rim'));  // a base built on site has none
