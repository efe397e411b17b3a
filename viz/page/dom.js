// Elements from data; text never becomes markup.
const svgNames = 'http://www.w3.org/2000/svg';

function fill(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes || {})) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? '' : value);
  }
  for (const child of children.flat()) if (child !== null && child !== undefined) element.append(child);
  return element;
}

export const make = (name, attributes, ...children) => fill(document.createElement(name), attributes, children);
export const draw = (name, attributes, ...children) => fill(document.createElementNS(svgNames, name), attributes, children);

/** A table of texts; the first cell of a row is its header. */
export function table(caption, head, rows, attributes) {
  return make('table', attributes, make('caption', {}, caption),
    make('thead', {}, make('tr', {}, head.map((h) => make('th', { scope: 'col' }, h)))),
    make('tbody', {}, rows.map((row) => make('tr', {}, row.map((cell, k) => make(k ? 'td' : 'th', k ? {} : { scope: 'row' }, cell))))));
}

/** A chart's numbers, folded away. */
export const numbersOf = (what, content) => make('details', {}, make('summary', {}, `Numbers: ${what}`), make('div', { class: 'wide', tabindex: '0', role: 'region', 'aria-label': what }, content));

export const byId = (id) => document.getElementById(id);
