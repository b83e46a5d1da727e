// What every script of a page begins with. All scripts of one page share one function: names are seen from file to file.

/** An element by its id. */
const $ = (id) => document.getElementById(id);

/** The data that the program wrote into the page. */
const dataOf = (id) => JSON.parse($(id).textContent);

/** An element with properties and children; texts become text, never markup. */
function make(tag, properties = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (name in node && name !== 'list') node[name] = value;
    else node.setAttribute(name, value);
  }
  node.append(...children);
  return node;
}

/** A button that does one thing. */
function button(words, action, properties = {}) {
  const node = make('button', {type: 'button', ...properties}, words);
  node.addEventListener('click', action);
  return node;
}

/** Whether the reader asked for less motion. */
const calm = () => matchMedia('(prefers-reduced-motion: reduce)').matches;
