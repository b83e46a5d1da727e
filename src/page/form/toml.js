// TOML as job files need it: tables, arrays of tables, strings, numbers, truths, lists, inline tables, comments.

class TomlFault extends Error {}

class TomlReader {
  constructor(text) {
    this.text = text.replace(/\r\n/g, '\n');
    this.at = 0;
  }

  /** The whole file as plain objects. */
  read() {
    const root = {};
    let table = root;
    for (this.skip(); this.at < this.text.length; this.skip()) {
      if (this.takes('[[')) table = this.header(root, ']]', true);
      else if (this.takes('[')) table = this.header(root, ']', false);
      else this.pair(table);
      this.lineEnds();
    }
    return root;
  }

  fault(words) {
    const line = this.text.slice(0, this.at).split('\n').length;
    throw new TomlFault(`line ${line}: ${words}`);
  }
  takes(word) {
    if (!this.text.startsWith(word, this.at)) return false;
    this.at += word.length;
    return true;
  }
  match(pattern) {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text);
    if (found) this.at += found[0].length;
    return found;
  }
  blanks() { this.match(/[ \t]*/y); }
  skip() { this.match(/(?:\s|#[^\n]*)*/y); }
  lineEnds() {
    this.blanks();
    if (!this.match(/(?:#[^\n]*)?(?:\n|$)/y)) this.fault('something stands behind the value');
  }

  name() {
    this.blanks();
    const bare = this.match(/[A-Za-z0-9_-]+/y);
    const name = bare ? bare[0] : this.text[this.at] === '"' || this.text[this.at] === "'" ? this.string() : this.fault('a name is wanted');
    this.blanks();
    return name;
  }
  names() {
    const all = [this.name()];
    while (this.takes('.')) all.push(this.name());
    return all;
  }

  /** A table by its path; of one that stands several times the last. */
  inside(root, names) {
    let at = root;
    for (const name of names) {
      if (!Object.hasOwn(at, name)) at[name] = {};
      at = Array.isArray(at[name]) ? at[name].at(-1) : at[name];
      if (typeof at !== 'object') this.fault(`'${name}' is no table`);
    }
    return at;
  }
  header(root, end, several) {
    const names = this.names();
    if (!this.takes(end)) this.fault(`'${end}' is wanted`);
    if (!several) return this.inside(root, names);
    const last = names.pop(), above = this.inside(root, names);
    (Object.hasOwn(above, last) ? above[last] : above[last] = []).push({});
    return above[last].at(-1);
  }
  pair(table) {
    const names = this.names(), last = names.pop(), into = this.inside(table, names);
    if (!this.takes('=')) this.fault("'=' is wanted");
    if (Object.hasOwn(into, last)) this.fault(`'${last}' stands twice`);
    into[last] = this.value();
  }

  value() {
    this.blanks();
    const first = this.text[this.at];
    if (first === '"' || first === "'") return this.string();
    if (this.takes('[')) return this.list();
    if (this.takes('{')) return this.inline();
    const word = this.match(/[A-Za-z0-9_+.:-]+/y)?.[0] ?? this.fault('a value is wanted');
    if (word === 'true' || word === 'false') return word === 'true';
    const number = Number(word.replace(/_/g, '').replace(/^\+/, ''));
    return Number.isFinite(number) ? number : this.fault(`'${word}' is no number; put texts in quotes`);
  }
  list() {
    const all = [];
    for (this.skip(); !this.takes(']'); this.skip()) {
      all.push(this.value());
      this.skip();
      if (!this.takes(',') && this.text[this.at] !== ']') this.fault("',' or ']' is wanted");
    }
    return all;
  }
  inline() {
    const table = {};
    this.blanks();
    if (this.takes('}')) return table;
    do this.pair(table);
    while (this.blanks(), this.takes(','));
    return this.takes('}') ? table : this.fault("'}' is wanted");
  }

  string() {
    const long = this.match(/"""\n?((?:\\[^]|(?!""")[^\\])*)"""/y);
    if (long) return this.plain(long[1].replace(/\\\n\s*/g, ''));
    const literal = this.match(/'''\n?([^]*?)'''/y) ?? this.match(/'([^'\n]*)'/y);
    if (literal) return literal[1];
    const basic = this.match(/"((?:\\.|[^"\\\n])*)"/y) ?? this.fault('a text does not end');
    return this.plain(basic[1]);
  }
  plain(text) {
    const signs = {b: '\b', t: '\t', n: '\n', f: '\f', r: '\r', '"': '"', '\\': '\\'};
    return text.replace(/\\(u[0-9A-Fa-f]{4}|U[0-9A-Fa-f]{8}|.)/g, (_, code) =>
      code.length > 1 ? String.fromCodePoint(parseInt(code.slice(1), 16)) : signs[code] ?? this.fault(`'\\${code}' is no sign`));
  }
}

const readToml = (text) => new TomlReader(text).read();

/** A value as TOML writes it. */
function tomlText(value) {
  if (Array.isArray(value)) return `[${value.map(tomlText).join(', ')}]`;
  if (typeof value === 'object') return `{ ${Object.entries(value).map(([k, v]) => `${k} = ${tomlText(v)}`).join(', ')} }`;
  return typeof value === 'string' ? JSON.stringify(value).replace(/\x7f/g, '\\u007f') : String(value);
}
