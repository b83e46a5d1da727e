// The job file as questions in the order one walks the room. What is typed stays on the device; it is saved as a job file that
// the program accepts as it is, and such a file can be opened again.

const table = dataOf('key-table'), given = dataOf('job');

class Form {
  constructor() {
    this.unit = 'in';
    this.fields = new Map();    // by path; those of entries that stand several times carry their number
    this.sections = new Map();  // by path: {section, node, entries}
    this.unknown = [];
    this.file = 'job.toml';
    WALK.forEach((step, i) => $('steps').append(this.step(step, i)));
    this.told = $('told');
    this.closing = make('p', {className: 'told', id: 'closing'});
    this.closing.setAttribute('aria-live', 'polite');
    this.sections.get('survey.plan')?.node.append(this.closing);
    $('save').addEventListener('click', () => this.save());
    $('open').addEventListener('change', (e) => this.openFile(e.target));
    $('empty').addEventListener('click', () => this.clear());
    this.renew();
  }

  // -- what is asked

  step(step, index) {
    const body = make('section', {id: 'step-' + index}, make('h2', {}, `${index + 1}. ${step.title}`));
    $('walk').append(make('a', {href: '#step-' + index}, step.title));
    const picture = step.picture && pictureOf(step.picture);
    if (picture) body.append(picture);
    let into = body;
    if (step.only) {
      into = make('div', {hidden: true});
      this.bench = make('input', {type: 'checkbox', id: 'has-bench'});
      this.bench.addEventListener('change', () => {
        this.renew();
        this.keep();
      });
      this.benchPart = into;
      body.append(make('p', {}, this.bench, ' ', make('label', {htmlFor: 'has-bench'}, step.only)), into);
    }
    for (const section of sectionsOf(step, table)) into.append(this.section(section));
    return body;
  }

  section(section) {
    const node = make('div', {className: 'card', id: 'section-' + section.path.replace(/\./g, '-')});
    node.append(make('h3', {}, section.path.replace(/[._]/g, ' ')), make('p', {className: 'quiet'}, section.about));
    const kept = {section, node, entries: []};
    this.sections.set(section.path, kept);
    if (section.repeats) {
      kept.list = make('div');
      node.append(kept.list, button('Add one', () => this.addEntry(section.path)));
    } else {
      node.append(...this.keys(section, section.path));
    }
    return node;
  }

  /** Needed and open ones first; what is usual and no choice of kind is folded away. */
  keys(section, path) {
    const shown = make('div', {className: 'fields'}), folded = make('div', {className: 'fields'});
    for (const key of section.keys) {
      const field = fieldFor(key, `${path}.${key.name}`, this);
      this.fields.set(field.path, field);
      Object.assign(field, {shown, folded});
      (field.isUsual() && key.kind !== 'choice' ? folded : shown).append(field.node);
    }
    if (!folded.children.length) return [shown];
    return [shown, make('details', {}, make('summary', {}, `Usual values: ${folded.children.length}`), folded)];
  }

  addEntry(path) {
    const kept = this.sections.get(path), number = (kept.count = (kept.count ?? -1) + 1), own = `${path}[${number}]`;
    const entry = {path: own, node: make('div', {className: 'entry'})};
    entry.node.append(...this.keys(kept.section, own), button('Take it out', () => this.dropEntry(path, entry)));
    kept.entries.push(entry);
    kept.list.append(entry.node);
    this.renew();
    return own;
  }
  dropEntry(path, entry) {
    const kept = this.sections.get(path);
    kept.entries = kept.entries.filter((e) => e !== entry);
    this.forget(entry);
    entry.node.remove();
    this.typed();
  }
  forget(entry) {
    for (const name of [...this.fields.keys()]) if (name.startsWith(entry.path + '.')) this.fields.delete(name);
  }

  // -- what follows from what is typed

  typed(field) {
    field?.check();
    if (field?.path === 'job.unit' || field?.key.kind === 'choice' || this.tells(field?.path)) this.renew();
    this.tellClosing();
    this.keep();
    this.tellMissing();
  }

  renew() {
    this.unit = this.fields.get('job.unit').text === 'mm' ? 'mm' : 'in';
    this.tellNeeds();
    for (const field of this.fields.values()) field.renew();
    const needed = (path) => {
      const need = NEEDS[path], other = need && this.fields.get(need[0]);
      return !other || other.holds() === need[1];
    };
    const base = this.baseKind();
    const goes = ({kinds}) => !kinds || !base || kinds.split(', ').includes(base);
    for (const [path, field] of this.fields) {
      field.asked = needed(path) && goes(field.key) && !field.told;
      field.node.hidden = field.isEmpty() && !field.asked;
    }
    for (const [path, {section, node}] of this.sections)
      node.hidden = !(needed(path) && section.keys.some(goes)) && !this.holds(path);
    this.benchPart.hidden = !this.bench.checked;
    this.tellMissing();
  }
  baseKind() { return this.fields.get('base.kind')?.holds(); }

  /** What this kind of base cannot do without, and nothing else tells; such a field is not folded away. */
  tellNeeds() {
    for (const field of this.fields.values()) {
      field.told = field.key.told_by.some((other) => this.holds(other));
      field.needed = field.key.needed.includes(this.baseKind()) && !field.told && !this.isOfNone(field.path);
      if (field.needed && field.node.parentNode === field.folded) field.shown.append(field.node);
    }
  }
  /** Whether it is the size of what the base is said to have none of. */
  isOfNone(path) {
    const other = this.fields.get(SIZES_OF_NONE[path]);
    return Boolean(other) && !other.isEmpty() && lengthOf(other.text, this.unit === 'mm') === 0;
  }
  /** Whether other keys hang on this one. */
  tells(path) {
    if (Object.values(SIZES_OF_NONE).includes(path)) return true;
    const is = (other) => path === other || path?.startsWith(other + '.');
    return [...this.fields.values()].some((field) => field.key.told_by.some(is));
  }
  /** Whether a key, or any key of a section, is given. */
  holds(path) { return [...this.fields].some(([name, field]) => (name === path || name.startsWith(path + '.')) && !field.isEmpty()); }

  /** Six readings tell of each other. */
  tellClosing() {
    const metric = this.unit === 'mm', usual = metric ? 2 : INCH / 16;
    const tolerance = lengthOf(this.fields.get('survey.tolerance')?.text ?? '', metric) || usual;
    const readings = SIDES_OF_PLAN.map(([name]) => [name, readingOf(this.fields.get('survey.plan.' + name)?.text ?? '', metric), tolerance])
        .filter((r) => r[1] > 0);
    const found = closes(readings);
    if (!found) this.closing.textContent = readings.length >= 5 ? 'These readings make no figure with four corners: read them again.' : '';
    else if (!found.others) this.closing.textContent = 'Five readings fix the figure; the sixth would check them.';
    else if (found.worst <= 1) this.closing.textContent = 'The four sides and two diagonals close.';
    else {
      const others = readings.map((r, i) => `${r[0].replace(/_/g, ' ')} ${tapeText(found.others[i], metric)}`);
      const first = found.suspect.replace(/_/g, ' ');
      this.closing.textContent = 'They do not close. ' + (first ? `Read again first: ${first}, then the others. ` : 'Read them again. ') +
                                 `If the others hold, each would be: ${others.join(', ')}.`;
    }
    this.closing.classList.toggle('wrong', Boolean(found?.others && found.worst > 1));
  }

  /** Whether a field's section is part of the file: a bench only where there is one. */
  counts(path) { return this.bench.checked || !/^bench[.[]/.test(path); }

  tellMissing() {
    if (!this.told) return;
    const wrong = [], missing = [];
    for (const [path, field] of this.fields) {
      if (!this.counts(path)) continue;
      if (field.input.getAttribute('aria-invalid') === 'true') wrong.push(path);
      const asked = /^(job|base|bench|bed)[.]/.test(path) || path.includes('[');
      if (field.needed && asked && field.asked && field.isEmpty()) missing.push(path);
    }
    const words = [...wrong.map((p) => `${p} is not right`), ...missing.map((p) => `${p} is needed`)];
    if (this.unknown.length) words.push(`not known here, and left out: ${this.unknown.join(', ')}`);
    const more = words.length > 4 ? `; and ${words.length - 4} more` : '';
    this.told.textContent = words.length ? `${words.slice(0, 4).join('; ')}${more}.` : 'Nothing is missing.';
  }

  // -- as a file

  /** `all`: what is set aside with the bench as well. */
  toml(all = false) {
    const lines = ['# A fallwright job, from its form.'];
    const write = (head, path, section) => {
      const own = section.keys.map((key) => this.fields.get(`${path}.${key.name}`)).filter((f) => !f.isEmpty());
      if (own.length || section.repeats) lines.push('', head, ...own.map((f) => `${f.key.name} = ${tomlText(f.value())}`));
    };
    for (const section of table) {
      if (!all && !this.counts(section.path + '.')) continue;
      if (section.repeats) for (const entry of this.sections.get(section.path).entries) write(`[[${section.path}]]`, entry.path, section);
      else write(`[${section.path}]`, section.path, section);
    }
    return lines.join('\n') + '\n';
  }

  /** Takes a job file in, in place of what was typed. */
  open(text, file) {
    const root = readToml(text);  // its fault comes before anything is cleared
    this.reset();
    this.file = file;
    for (const section of table) {
      const at = section.path.split('.').reduce((t, name) => t?.[name], root);
      if (at === undefined) continue;
      for (const entry of section.repeats ? [].concat(at) : [at])
        this.takeSection(section, entry, section.repeats ? this.addEntry(section.path) : section.path);
    }
    this.bench.checked = root.bench !== undefined;
    this.unknown = this.strangers(root, '');
    this.renew();
    this.tellClosing();
    this.keep();
  }
  takeSection(section, values, path) {
    for (const key of section.keys) if (Object.hasOwn(values, key.name)) this.fields.get(`${path}.${key.name}`).take(values[key.name]);
  }
  /** Names of a file that the table does not have. */
  strangers(node, path) {
    return Object.entries(node).flatMap(([name, value]) => {
      const own = path ? `${path}.${name}` : name, section = table.find((s) => s.path === own);
      if (section || table.some((s) => s.path.startsWith(own + '.')))
        return [].concat(value).flatMap((v) => (typeof v === 'object' ? this.strangers(v, own) : []));
      return table.find((s) => s.path === path)?.keys.some((k) => k.name === name) ? [] : [own];
    });
  }

  async openFile(input) {
    const file = input.files[0];
    if (!file) return;
    try {
      this.open(await file.text(), file.name);
    } catch (error) {
      this.told.textContent = `${file.name} cannot be opened: ${error.message}.`;
    }
    input.value = '';  // the same file can be chosen again
  }
  save() {
    const address = URL.createObjectURL(new Blob([this.toml()], {type: 'application/toml'}));
    make('a', {href: address, download: this.file}).click();
    setTimeout(() => URL.revokeObjectURL(address), 10000);
  }

  // -- kept on the device

  reset() {
    for (const {entries, list} of this.sections.values()) {
      for (const entry of entries) this.forget(entry);
      entries.length = 0;
      list?.replaceChildren();
    }
    for (const field of this.fields.values()) field.text = '';
    this.bench.checked = false;
    this.unknown = [];
    this.file = 'job.toml';
  }
  /** Empty; a form that was made with a job begins with it again. */
  clear() {
    if (given.text) {
      this.open(given.text, given.file);
    } else {
      this.reset();
      this.renew();
      this.tellClosing();
    }
    try { localStorage.removeItem(this.place); } catch (e) { /* none */ }
  }
  /** A form that was made with a job keeps apart from others what is typed into it. */
  place = given.text ? `fallwright form ${given.file} ${[...given.text].reduce((sum, c) => (31 * sum + c.codePointAt(0)) | 0, 0)}` : 'fallwright form';
  keep() {
    const kept = {file: this.file, text: this.toml(true), bench: this.bench.checked};
    try { localStorage.setItem(this.place, JSON.stringify(kept)); } catch (e) { /* none, or full */ }
  }
  /** Whether there was something to take up again. */
  restore() {
    try {
      const kept = JSON.parse(localStorage.getItem(this.place));
      if (!kept) return false;
      this.open(kept.text, kept.file);
      this.bench.checked = kept.bench ?? this.bench.checked;
    } catch (e) { return false; /* nothing of ours */ }
    this.renew();
    this.keep();
    return true;
  }
}

const form = new Form();
if (!form.restore() && given.text) form.open(given.text, given.file);
window.fallwrightForm = {form, readToml, tomlText, numberOf, closes};
