// What the page shows, as one value: the foot, the options, the phase. It goes into the link and comes back from it.

const plated = (s) => !['bare', 'open'].includes(s['shoe.type']);

/** Keys that mean something for this run; the others are not sent, since a case must not hold what has no effect. */
export function inUse(s) {
  const keys = ['shoe.type'];
  if (s['shoe.type'] === 'bare') return keys;
  keys.push('shoe.material', 'shoe.thickness', 'shoe.web', 'shoe.setback', 'shoe.elevation', 'shoe.toe', 'shoe.breakover',
    'shoe.attachment', 'pad.type', 'packing.region');
  if (s['shoe.toe'] === 'rolled') keys.push('shoe.roll_radius');
  if (s['shoe.toe'] === 'rocker') keys.push('shoe.rocker_start', 'shoe.rocker_angle');
  if (plated(s)) keys.push('shoe.plate_thickness');
  if (s['pad.type'] !== 'none') keys.push('pad.material', 'pad.thickness', 'pad.hardness');
  if (s['packing.region'] !== 'none') {
    keys.push('packing.material', 'packing.hardness', 'packing.order', 'packing.thickness');
    if (s['packing.order'] === 'before nailing' || !(plated(s) || s['pad.type'] === 'full')) keys.push('packing.proud');
  }
  return keys;
}

export function commonInUse(c) {
  const keys = ['horse.mass', 'foot.sole_depth_tip', 'foot.toe_angle', 'foot.palmar_angle', 'foot.sole_cup', 'load.gait',
    'ground.type'];
  if (c['ground.type'] === 'elastic') keys.push('ground.material', 'ground.depth');
  return keys;
}

export const plainRun = (name) => ({
  name,
  s: {
    'shoe.type': 'open', 'shoe.material': 'mild steel', 'shoe.thickness': 10, 'shoe.web': 22.225, 'shoe.setback': 0,
    'shoe.elevation': 0, 'shoe.toe': 'flat', 'shoe.breakover': 6, 'shoe.attachment': 'nailed', 'shoe.roll_radius': 30,
    'shoe.rocker_start': 20, 'shoe.rocker_angle': 10, 'shoe.plate_thickness': 6, 'pad.type': 'none',
    'pad.material': 'polyurethane A90', 'pad.thickness': 3, 'pad.hardness': null, 'packing.region': 'none',
    'packing.material': 'silicone A30', 'packing.hardness': null, 'packing.order': 'after nailing', 'packing.proud': 0,
    'packing.thickness': 0,
  },
});

export function firstState() {
  const b = plainRun('set back 1/4 in');
  b.s['shoe.setback'] = 6.35;
  return {
    phase: 'standing', share: 50, edit: 1, view: 'both', words: 'us', theme: 'auto', draws: 100, kept_draws: false,
    common: {
      'horse.mass': 520, 'foot.sole_depth_tip': 11, 'foot.toe_angle': 48, 'foot.palmar_angle': 2, 'foot.sole_cup': 8,
      'load.gait': 'walk', 'ground.type': 'rigid', 'ground.material': 'turf', 'ground.depth': 100,
    },
    runs: [plainRun('open steel shoe'), b],
  };
}

const textOf = (value, unit) => (typeof value === 'number' && unit ? `${+value.toFixed(4)} ${unit}` : value);

function settings(values, keys, known, plain) {
  const out = {};
  for (const key of keys) {
    const value = values[key];
    if (value === null || value === undefined || value === '') continue;
    if (plain && value === 0 && key === 'packing.thickness') continue;
    out[key] = textOf(value, known[key].unit);
  }
  return out;
}

/** The body of a request; `known` are the server's keys. */
export function requestOf(state, known) {
  const common = settings(state.common, commonInUse(state.common), known, false);
  if (state.phase === 'midstance') common['load.midstance_at'] = `${state.share} %`;
  const base = new Set(inUse(state.runs[0].s));
  const runs = state.runs.map((run, k) => {
    const s = settings(run.s, inUse(run.s), known, k === 0);
    // An option inherits what the baseline sets: what it does not fill or squeeze must be said.
    if (k > 0 && !('packing.proud' in s) && 'packing.order' in s && base.has('packing.proud')) s['packing.proud'] = '0 mm';
    return { name: run.name, settings: s };
  });
  return { phase: state.phase, title: 'Comparison from the page', common, runs };
}

export function fragmentOf(state) {
  const bytes = new TextEncoder().encode(JSON.stringify(state));
  return btoa(String.fromCharCode(...bytes)).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

function merged(values, defaults) {
  const out = { ...defaults };
  for (const key of Object.keys(defaults)) {
    const v = values && values[key];
    const fits = typeof v === typeof defaults[key] || (defaults[key] === null && typeof v === 'number') || (v === null && /hardness$/.test(key));
    if (fits && v !== undefined) out[key] = v;
  }
  return out;
}

/** The state in a link, with only what this page knows; the first state if there is none or it is broken. */
export function stateOf(fragment) {
  const first = firstState();
  if (!fragment) return first;
  try {
    const bytes = Uint8Array.from(atob(fragment.replaceAll('-', '+').replaceAll('_', '/')), (c) => c.charCodeAt(0));
    const read = JSON.parse(new TextDecoder().decode(bytes));
    const runs = Array.isArray(read.runs) && read.runs.length ? read.runs.slice(0, 6) : first.runs;
    const state = merged(read, first);
    state.common = merged(read.common, first.common);
    state.runs = runs.map((r, k) => ({ name: String(r.name || `option ${k}`).slice(0, 60), s: merged(r.s, plainRun('').s) }));
    if (![30, 50, 100, 200, 500].includes(state.draws)) state.draws = first.draws;
    state.edit = Math.min(Math.max(0, Math.trunc(state.edit)), state.runs.length - 1);
    return state;
  } catch {
    return first;
  }
}
