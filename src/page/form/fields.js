// One field for each key of the table: asks in the trade's words, says at once what is allowed, and gives back what TOML
// stores. An empty field stands for a key that is left out.

/** What stands in a field for a list that is there and holds nothing. */
const NONE = '[]';

class Field {
  constructor(key, path, form) {
    Object.assign(this, {key, path, form, id: 'key-' + path.replace(/[^a-z0-9]+/gi, '-')});
    this.fault = make('small', {className: 'fault', id: this.id + '-fault'});
    this.input = this.control();
    this.input.id = this.id;
    this.input.setAttribute('aria-describedby', this.fault.id);
    this.label = make('label', {htmlFor: this.id});
    this.node = make('div', {className: 'field'}, this.label, this.input, make('small', {}, key.about), this.fault);
    this.needed = false;
  }

  usual() { return this.key[this.form.unit].usual; }
  control() {
    const input = this.key.kind === 'points' || this.key.kind === 'rows'
        ? make('textarea', {rows: 4}) : make('input', {type: 'text', autocomplete: 'off', autocapitalize: 'off', spellcheck: false});
    input.addEventListener('input', () => this.form.typed(this));
    return input;
  }

  get text() { return this.input.value; }
  set text(words) { this.input.value = words; }
  isEmpty() { return !this.text.trim(); }

  /** What the unit of the job and the kind of base make of it. */
  renew() {
    this.tellNeed();
    const {range} = this.key[this.form.unit], fixed = this.isUsual() ? 'usually ' : 'like ';
    this.input.placeholder = fixed + this.usual().replace(/"/g, '');
    this.node.title = range ? `allowed is ${range.words}` : '';
    this.check();
  }
  isUsual() { return this.key.presence === 'usual' && !this.needed; }
  tellNeed() { this.label.textContent = this.key.name.replace(/_/g, ' ') + (this.needed ? ' (needed)' : ''); }
  check() {
    const why = whyNot(this.key, this.text, this.form.unit);
    this.fault.textContent = why;
    this.input.setAttribute('aria-invalid', String(Boolean(why)));
    return !why;
  }

  /** For TOML. */
  value() {
    const text = this.text.trim(), list = (line) => line.split(',').map((t) => t.trim()).filter(Boolean);
    if (text === NONE) return [];
    switch (this.key.kind) {
      case 'integer': return Number.isInteger(Number(text)) ? Number(text) : text;
      case 'lengths': return list(text);
      case 'points': case 'rows': return text.split(/[\n;]/).map(list).filter((row) => row.length);
      case 'reading': return isMoreThanLength(text) ? valueOfToml(text) ?? text : text.includes(',') ? list(text) : text;
      default: return text;
    }
  }
  /** From TOML. */
  take(value) {
    if (Array.isArray(value) && !value.length) this.text = NONE;
    else if (this.key.kind === 'reading' && Array.isArray(value) && value.every((v) => typeof v !== 'object')) this.text = value.join(', ');
    else if (this.key.kind === 'lengths' && Array.isArray(value)) this.text = value.join(', ');
    else if (['points', 'rows'].includes(this.key.kind) && Array.isArray(value)) this.text = value.map((row) => row.join(', ')).join('\n');
    else this.text = typeof value === 'object' ? tomlText(value) : String(value);
  }
}

/** One of a few words. */
class ChoiceField extends Field {
  control() {
    const select = make('select');
    select.addEventListener('change', () => this.form.typed(this));
    return select;
  }
  renew() {
    this.tellNeed();
    const kept = this.text, word = this.usual().replace(/"/g, '');
    const none = this.key.presence === 'usual' ? `as usual: ${word}` : this.key.presence === 'required' ? 'choose' : 'not known';
    this.input.replaceChildren(make('option', {value: ''}, none), ...this.key.choices.map((c) => make('option', {value: c}, c)));
    this.text = kept;
    this.check();
  }
  get text() { return this.input.value; }
  /** A word of a file that is none of the choices stays, and is told of. */
  set text(word) {
    if (word && !this.key.choices.includes(word)) this.input.append(make('option', {value: word}, word));
    this.input.value = word;
  }
  check() {
    const wrong = this.text && !this.key.choices.includes(this.text);
    this.fault.textContent = wrong ? `'${this.text}' is none of ${this.key.choices.join(', ')}` : '';
    this.input.setAttribute('aria-invalid', String(Boolean(wrong)));
    return !wrong;
  }
  /** What holds, whether it was chosen or is usual. */
  holds() { return this.text || (this.key.presence === 'usual' ? this.usual().replace(/"/g, '') : ''); }
}

/** Several of a few words; nothing touched is as usual. */
class WordsField extends Field {
  control() {
    const set = make('div', {className: 'ticks', role: 'group', 'aria-label': this.key.name.replace(/_/g, ' ')});
    this.boxes = this.key.choices.map((word) => {
      const box = make('input', {type: 'checkbox', value: word, id: `${this.id}-${word}`});
      box.addEventListener('change', () => {
        this.touched = true;
        this.strange = [];
        this.form.typed(this);
      });
      set.append(make('span', {}, box, make('label', {htmlFor: box.id}, word)));
      return box;
    });
    this.touched = false;
    this.strange = [];
    return set;
  }
  get text() { return this.touched ? JSON.stringify(this.value()) : ''; }
  set text(words) {
    this.touched = words !== '';
    if (words !== '') this.tick(JSON.parse(words));
  }
  /** Words of a file that are none of the choices stay, until one is ticked or taken off, and are told of. */
  tick(words) {
    for (const box of this.boxes) box.checked = words.includes(box.value);
    this.strange = words.map(String).filter((word) => !this.key.choices.includes(word));
    this.check();
  }
  renew() {
    this.tellNeed();
    if (!this.touched) this.tick(this.key.presence === 'usual' ? readToml('v = ' + this.usual()).v : []);
  }
  check() {
    const wrong = this.strange.length > 0;
    this.fault.textContent = wrong ? `'${this.strange.join(', ')}' is none of ${this.key.choices.join(', ')}` : '';
    this.input?.setAttribute('aria-invalid', String(wrong));
    return !wrong;
  }
  value() { return [...this.boxes.filter((b) => b.checked).map((b) => b.value), ...this.strange]; }
  take(value) {
    this.touched = true;
    this.tick(Array.isArray(value) ? value : [value]);
  }
}

function fieldFor(key, path, form) {
  const Kind = key.kind === 'choice' ? ChoiceField : key.kind === 'words' ? WordsField : Field;
  return new Kind(key, path, form);
}
