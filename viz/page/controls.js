// Sliders, fields and lists of the option that is being changed and of the foot that all options share.
import { make, byId } from './dom.js';
import { inUse, commonInUse } from './state.js';
import { inWords, inchText } from './words.js';

const sixteenth = 25.4 / 16;
const groups = [
  ['Shoe', 'run', [
    ['shoe.type', 'Kind of shoe'], ['shoe.material', 'Material of the shoe'],
    ['shoe.setback', 'Set back', { low: 0, high: 12 * sixteenth, step: sixteenth, sixteenths: true }],
    ['shoe.elevation', 'Heel elevation', { low: 0, high: 12, step: 0.5 }],
    ['shoe.toe', 'Toe of the shoe'], ['shoe.breakover', 'Breakover behind the front edge', { low: 0, high: 40, step: 1 }],
    ['shoe.roll_radius', 'Radius of the roll', { low: 5, high: 80, step: 1 }],
    ['shoe.rocker_start', 'Start of the rocker', { low: 5, high: 60, step: 1 }],
    ['shoe.rocker_angle', 'Angle of the rocker', { low: 1, high: 30, step: 1 }],
    ['shoe.thickness', 'Thickness of the shoe', { low: 4, high: 20, step: 0.5 }],
    ['shoe.web', 'Width of the web', { low: 15, high: 35, step: 0.5 }],
    ['shoe.plate_thickness', 'Thickness of plate or bar', { low: 1, high: 10, step: 0.5 }],
    ['shoe.attachment', 'Held by']]],
  ['Pad', 'run', [
    ['pad.type', 'Pad'], ['pad.material', 'Material of the pad'],
    ['pad.thickness', 'Thickness of the pad', { low: 1, high: 12, step: 0.5 }],
    ['pad.hardness', 'Hardness of the pad', { low: 20, high: 80, step: 1, empty: true }]]],
  ['Packing', 'run', [
    ['packing.region', 'Where it is filled'], ['packing.material', 'Material of the packing'],
    ['packing.order', 'Order of work'],
    ['packing.proud', 'Proud of the void', { low: 0, high: 3, step: 0.25 }],
    ['packing.thickness', 'Depth of the filling (0: all of it)', { low: 0, high: 12, step: 0.5 }],
    ['packing.hardness', 'Hardness of the packing', { low: 20, high: 80, step: 1, empty: true }]]],
  ['Foot of all options', 'common', [
    ['foot.sole_depth_tip', 'Sole depth under the tip of the bone', { low: 5, high: 25, step: 0.5 }],
    ['foot.toe_angle', 'Toe angle', { low: 40, high: 60, step: 0.5 }],
    ['foot.palmar_angle', 'Palmar angle', { low: -3, high: 12, step: 0.5 }],
    ['foot.sole_cup', 'Hollow of the sole', { low: 0, high: 15, step: 0.5 }],
    ['horse.mass', 'Mass of the horse', { low: 200, high: 900, step: 10 }]]],
  ['Ground and gait', 'common', [
    ['load.gait', 'Gait'], ['ground.type', 'Ground'], ['ground.material', 'Material of the ground'],
    ['ground.depth', 'Depth of the bed', { low: 10, high: 300, step: 10 }]]],
];

const shownNumber = (v) => (v === null ? '' : String(+v.toFixed(2)));

/** Slider and number field of one value; both by keyboard, neither by drag alone. */
function numberControl(id, label, range, unit, value, change) {
  const field = make('input', { id: `${id}-field`, type: 'number', step: 'any', value: shownNumber(value), 'aria-label': `${label}, ${unit}`, autocomplete: 'off' });
  const slider = make('input', { id, type: 'range', min: range.low, max: range.high, step: range.step, value: value ?? range.low });
  const inch = make('span', { class: 'inch' }, unit === 'mm' && value !== null ? inchText(value) : '');
  let sixteenths = null;
  const put = (v, from, moving) => {
    if (from !== slider) slider.value = v ?? range.low;
    if (from !== field) field.value = shownNumber(v);
    if (sixteenths && from !== sixteenths) sixteenths.value = String(+(v / sixteenth).toFixed(1));
    inch.textContent = unit === 'mm' && v !== null ? inchText(v) : '';
    slider.setAttribute('aria-valuetext', v === null ? 'as the material' : `${shownNumber(v)} ${unit} ${inch.textContent}`);
    if (from) change(v, moving);
  };
  slider.addEventListener('input', () => put(+slider.value, slider, true));
  field.addEventListener('change', () => {
    if (field.value === '' && range.empty) put(null, field);
    else if (field.value !== '' && Number.isFinite(+field.value)) put(+field.value, field);
    else put(value, null);
  });
  const fields = make('span', { class: 'fields' }, field, make('span', { class: 'unit' }, unit));
  if (range.sixteenths) {
    sixteenths = make('input', { id: `${id}-sixteenths`, type: 'number', min: 0, step: 1, value: String(+(value / sixteenth).toFixed(1)), 'aria-label': `${label}, sixteenths of an inch`, autocomplete: 'off' });
    sixteenths.addEventListener('change', () => put(+sixteenths.value * sixteenth, sixteenths));
    fields.append(sixteenths, make('span', { class: 'unit' }, '/16 in'));
  }
  if (range.empty) {
    const box = make('input', { type: 'checkbox', id: `${id}-own`, checked: value !== null });
    box.addEventListener('change', () => put(box.checked ? 50 : null, box));
    fields.append(make('label', { class: 'own' }, box, 'other than the material’s'));
  }
  put(value, null);
  return make('div', { class: 'control' }, make('label', { for: id }, label), slider, fields, inch);
}

function listControl(id, label, options, value, change) {
  const list = make('select', { id }, options.map((o) => make('option', { value: o, selected: o === value }, o)));
  list.addEventListener('change', () => change(list.value));
  return make('div', { class: 'control' }, make('label', { for: id }, label), list);
}

/** Where a key's words come from: the key itself or the catalogue. */
function optionsOf(key, known, materials) {
  if (known.kind) return (materials[known.kind] || []).filter((m) => m !== 'rigid');
  return known.words || [];
}

/** Fills #controls for the option under change; `changed(rebuild, moving)` after every move, `moving` while a slider is dragged. */
export function showControls(state, start, changed) {
  const home = byId('controls');
  const run = state.runs[state.edit].s;
  const focused = document.activeElement && home.contains(document.activeElement) ? document.activeElement.id : null;
  const used = { run: new Set(inUse(run)), common: new Set(commonInUse(state.common)) };
  home.replaceChildren(...groups.map(([title, owner, keys]) => {
    const values = owner === 'run' ? run : state.common;
    const shown = keys.filter(([key]) => used[owner].has(key));
    if (!shown.length) return null;
    const box = make('fieldset', {}, make('legend', {}, inWords(title, state.words)));
    for (const [key, label, range] of shown) {
      const known = start.keys[key], id = key.replace('.', '-'), words = inWords(label, state.words);
      if (range) box.append(numberControl(id, words, range, known.unit === 'ShoreA' ? 'Shore A' : known.unit, values[key], (v, moving) => { values[key] = v; changed(false, moving); }));
      else box.append(listControl(id, words, optionsOf(key, known, start.materials), values[key], (v) => { values[key] = v; changed(true); }));
    }
    return box;
  }).filter(Boolean));
  if (focused && byId(focused)) byId(focused).focus();
}

/** A row of radio buttons. */
export function showRadios(id, name, options, value, change) {
  byId(id).replaceChildren(...options.map(([word, label]) => {
    const button = make('input', { type: 'radio', name, value: word, id: `${name}-${word}`, checked: word === value });
    button.addEventListener('change', () => change(word));
    return make('label', { class: 'choice', for: `${name}-${word}` }, button, label);
  }));
}

/** Place in the stance, for the phase that has one. */
export function showScrub(state, changed) {
  const home = byId('scrub');
  home.hidden = state.phase !== 'midstance';
  if (home.hidden) return home.replaceChildren();
  const control = numberControl('share', 'Place in the stance', { low: 20, high: 80, step: 2.5 }, '%', state.share, (v, moving) => { state.share = Math.min(80, Math.max(20, v)); changed(false, moving); });
  return home.replaceChildren(...control.childNodes);
}
