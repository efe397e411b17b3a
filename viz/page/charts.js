// Pressure along the sole and the two ledgers, each with its numbers as a table.
import { make, draw, table, numbersOf } from './dom.js';
import { letters, numberText, inWords } from './words.js';

const dashes = ['', '7 3', '2 3', '9 3 2 3', '4 2', '1 2'];

function niceTop(value) {
  if (!(value > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(value));
  return [1, 2, 2.5, 5, 10].map((m) => m * power).find((t) => t >= value);
}

function lineOf(profile, xOf, yOf) {
  return profile.x.map((x, k) => `${k ? 'L' : 'M'}${xOf(x).toFixed(1)} ${yOf(profile.kPa[k]).toFixed(1)}`).join('');
}

/** All runs in one plot; toe at the right in the sagittal model, as in the pictures. */
function profileChart(runs, model) {
  const given = runs.map((r, k) => ({ k, name: r.name, profile: r.models[model] && r.models[model].profile })).filter((r) => r.profile && r.profile.x.length);
  if (!given.length) return null;
  const W = 560, H = 240, left = 46, right = 12, top = 14, bottom = 36;
  const xs = given.flatMap((r) => r.profile.x), low = Math.min(...xs), high = Math.max(...xs);
  const most = niceTop(Math.max(...given.flatMap((r) => r.profile.kPa), 1));
  const back = model === 'sagittal';
  const xOf = (x) => left + ((back ? high - x : x - low) / (high - low)) * (W - left - right);
  const yOf = (p) => H - bottom - (p / most) * (H - top - bottom);
  const svg = draw('svg', { viewBox: `0 0 ${W} ${H}`, class: 'chart', role: 'img', 'aria-label': `Pressure along the sole, ${model} model. ${given.map((r) => `${letters[r.k]} reaches ${numberText(Math.max(...r.profile.kPa))} kPa`).join(', ')}.` });
  for (let t = 0; t <= 4; t += 1) {
    const p = (most * t) / 4;
    svg.append(draw('line', { x1: left, x2: W - right, y1: yOf(p), y2: yOf(p), class: 'grid' }), draw('text', { x: left - 6, y: yOf(p) + 4, 'text-anchor': 'end', class: 'tick' }, numberText(p)));
  }
  const step = (high - low) / 5;
  for (let t = 0; t <= 5; t += 1) svg.append(draw('text', { x: xOf(low + t * step), y: H - bottom + 15, 'text-anchor': 'middle', class: 'tick' }, (low + t * step).toFixed(0)));
  svg.append(draw('text', { x: left, y: 11, class: 'tick' }, 'kPa'), draw('text', { x: (left + W) / 2, y: H - 6, 'text-anchor': 'middle', class: 'tick' }, back ? 'behind the toe, mm' : 'from the axis, mm'));
  const tip = given[0].profile.tip;
  svg.append(draw('line', { x1: xOf(tip), x2: xOf(tip), y1: top, y2: H - bottom, class: 'landmark' }), draw('text', { x: xOf(tip) + 3, y: top + 9, class: 'tick' }, 'tip of the bone'));
  for (const r of given) {
    svg.append(draw('path', { d: lineOf(r.profile, xOf, yOf), class: `curve c${r.k}`, 'stroke-dasharray': dashes[r.k] }));
    const at = r.profile.kPa.indexOf(Math.max(...r.profile.kPa));
    svg.append(draw('text', { x: xOf(r.profile.x[at]), y: Math.max(top + 8, yOf(r.profile.kPa[at]) - 4), 'text-anchor': 'middle', class: `letter c${r.k}` }, letters[r.k]));
  }
  const rows = given[0].profile.x.map((x, i) => [x.toFixed(1), ...given.map((r) => (r.profile.x.length === given[0].profile.x.length ? `${numberText(r.profile.kPa[i])}` : ''))]);
  const own = given.some((r) => r.profile.x.length !== given[0].profile.x.length);
  const tables = own
    ? given.map((r) => table(`${letters[r.k]}, ${r.name}`, ['mm', 'kPa'], r.profile.x.map((x, i) => [x.toFixed(1), numberText(r.profile.kPa[i])])))
    : [table('Pressure along the sole, kPa', [back ? 'mm behind the toe' : 'mm from the axis', ...given.map((r) => `${letters[r.k]}, ${r.name}`)], rows)];
  return [svg, numbersOf(`pressure along the sole, ${model}`, tables)];
}

export function showProfiles(home, runs, models) {
  home.replaceChildren(make('h2', {}, 'Pressure along the sole'), ...models.flatMap((m) => {
    const chart = profileChart(runs, m);
    return chart ? [make('h3', {}, m === 'sagittal' ? 'From the side' : 'Round the axis'), ...chart] : [];
  }));
}

const ledgers = [
  ['How it leaves the bone', [['bone_share_lamellae', 'lamellae', 'L'], ['bone_share_sole', 'sole', 'S'], ['bone_share_frog', 'frog', 'F']]],
  ['How it reaches the ground', [['ground_share_shoe', 'shoe', 'H'], ['ground_share_wall', 'bare wall', 'W'], ['ground_share_packing', 'packing, pad, plate', 'P'], ['ground_share_frog', 'frog', 'F'], ['ground_share_sole', 'sole', 'S']]],
];

function ledgerBars(title, entries, runs, model, words) {
  const given = runs.map((r, k) => ({ k, name: r.name, values: r.models[model] && r.models[model].values })).filter((r) => r.values && entries.some(([key]) => key in r.values));
  if (!given.length) return [];
  const W = 560, row = 26, H = given.length * row + 4;
  const parts = given.map((r) => entries.map(([key, name, letter], e) => ({ name, letter, e, share: r.values[key] ?? 0 })));
  const svg = draw('svg', { viewBox: `0 0 ${W} ${H}`, class: 'chart', role: 'img', 'aria-label': `${title}, ${model} model. ${given.map((r, i) => `${letters[r.k]}: ${parts[i].filter((p) => Math.abs(p.share) >= 0.05).map((p) => `${inWords(p.name, words)} ${numberText(p.share)} %`).join(', ')}`).join('. ')}.` });
  // A part that pulls the other way leaves more than all of the load to the others.
  const whole = Math.max(100, ...parts.map((list) => list.reduce((sum, p) => sum + Math.max(0, p.share), 0)));
  given.forEach((r, i) => {
    let x = 24;
    svg.append(draw('text', { x: 4, y: i * row + 18, class: `letter c${r.k}` }, letters[r.k]));
    for (const p of parts[i]) {
      const w = (Math.max(0, p.share) / whole) * (W - 30);
      svg.append(draw('rect', { x, y: i * row + 3, width: w, height: row - 6, class: `share s${p.e}` }));
      if (w > 52) svg.append(draw('text', { x: x + w / 2, y: i * row + 18, 'text-anchor': 'middle', class: `sharetext s${p.e}` }, `${p.letter} ${numberText(p.share)} %`));
      x += w;
    }
  });
  const used = entries.filter(([key]) => given.some((r) => Math.abs(r.values[key] ?? 0) >= 0.05));
  const pulled = given.flatMap((r, i) => parts[i].filter((p) => p.share <= -0.05).map((p) => `${letters[r.k]}: ${inWords(p.name, words)} ${numberText(p.share)} %, the other way, not drawn`));
  return [make('h4', {}, title), svg, ...pulled.map((t) => make('p', { class: 'key' }, t)), make('p', { class: 'key' }, used.map(([, name, letter]) => `${letter} ${inWords(name, words)}`).join(' · ')),
    numbersOf(`${title.toLowerCase()}, ${model}`, table(`${title}, %`, ['part', ...given.map((r) => letters[r.k])], entries.map(([key, name]) => [inWords(name, words), ...given.map((r) => (key in r.values ? numberText(r.values[key]) : '–'))])))];
}

export function showLedgers(home, runs, models, words) {
  home.replaceChildren(make('h2', {}, 'Where the load goes'), ...models.flatMap((m) => {
    const bars = ledgers.flatMap(([title, entries]) => ledgerBars(title, entries, runs, m, words));
    return bars.length ? [make('h3', {}, m === 'sagittal' ? 'From the side' : 'Round the axis'), ...bars] : [];
  }), make('p', { class: 'key' }, 'Foot in the air: nothing to share out.'));
  if (home.querySelector('svg')) home.lastElementChild.remove();
}
