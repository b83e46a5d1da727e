// Tables that sort by a column and show only the rows that hold what is typed.

const collator = new Intl.Collator('en', {numeric: true});

/** What a cell sorts by: its own key where the program gave one. */
const keyOf = (row, column) => row.cells[column].dataset.sort ?? row.cells[column].textContent;

/** Numbers by their size, sign and all; words as a reader looks them up, the numbers in them by size. */
function compared(a, b) {
  const by = Number(a) - Number(b);
  return a !== '' && b !== '' && Number.isFinite(by) ? by : collator.compare(a, b);
}

function sortBy(table, column, head) {
  const rising = head.getAttribute('aria-sort') !== 'ascending';
  for (const other of table.tHead.rows[0].cells) other.removeAttribute('aria-sort');
  head.setAttribute('aria-sort', rising ? 'ascending' : 'descending');
  const rows = [...table.tBodies[0].rows];
  rows.sort((a, b) => (rising ? 1 : -1) * compared(keyOf(a, column), keyOf(b, column)));
  table.tBodies[0].append(...rows);
}

function filter(table, words, told) {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  let shown = 0;
  for (const row of table.tBodies[0].rows) {
    const text = row.textContent.toLowerCase();
    row.hidden = !wanted.every((word) => text.includes(word));
    shown += row.hidden ? 0 : 1;
  }
  told.textContent = wanted.length ? `${shown} of ${table.tBodies[0].rows.length} rows` : '';
}

function setUpTable(table) {
  [...table.tHead.rows[0].cells].forEach((head, column) => {
    const words = head.textContent;
    head.replaceChildren(button(words, () => sortBy(table, column, head), {className: 'sort'}));
  });
  if (table.tBodies[0].rows.length < 12) return;
  const told = make('output'), field = make('input', {type: 'search', placeholder: 'Filter', autocomplete: 'off'});
  field.setAttribute('aria-label', `Filter: ${table.caption.textContent}`);
  field.addEventListener('input', () => filter(table, field.value, told));
  table.parentNode.before(make('p', {className: 'filter'}, field, told));
}

document.querySelectorAll('main table').forEach(setUpTable);

// On paper nothing stays folded but the sheets, which drawings.pdf has to scale.
let folded = [];
addEventListener('beforeprint', () => {
  folded = [...document.querySelectorAll('details:not(.sheet):not([open])')];
  for (const part of folded) part.open = true;
});
addEventListener('afterprint', () => {
  for (const part of folded) part.open = false;
});
