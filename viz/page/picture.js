// A solved foot as SVG, in mm: parts, bands of the field, bones, ground, forces, pressure on the sole.
import { draw } from './dom.js';
import { numberText, inWords } from './words.js';

const points = (list) => list.map(([x, y]) => `${x},${y}`).join(' ');
const size = 3.6; // of letters [mm]

/** Pressure as a ribbon that stands off the sole, which is walked with its body on the left. */
function ribbonPath({ at, kPa, mm_per_kpa: scale }) {
  if (at.length < 2) return '';
  const off = at.map((p, k) => {
    const a = at[Math.max(0, k - 1)], b = at[Math.min(at.length - 1, k + 1)];
    const dx = b[0] - a[0], dy = b[1] - a[1], n = Math.hypot(dx, dy) || 1;
    const h = Math.max(0, kPa[k]) * scale;
    return [p[0] + (dy / n) * h, p[1] - (dx / n) * h];
  });
  if (!kPa.some((p) => p > 0)) return '';
  return `M${points(at).replaceAll(' ', 'L')}L${points(off.reverse()).replaceAll(' ', 'L')}Z`;
}

function partsOf(scene, scale) {
  const group = draw('g', { class: 'parts' });
  const put = (layer, list) => list.filter((p) => p.layer === layer && !p.field)
    .forEach((p) => group.append(draw('path', { d: p.path, fill: p.fill, class: 'part' })));
  put('behind', scene.parts);
  put('body', scene.parts);
  for (const band of scene.bands) group.append(draw('path', { d: band.path, fill: scale.colours[band.level], class: 'band' }));
  put('front', scene.parts);
  for (const p of scene.parts) group.append(draw('path', { d: p.path, class: p.layer === 'behind' ? 'edge behind' : 'edge' }));
  group.append(draw('path', { d: scene.rest, class: 'rest' }));
  const d = ribbonPath(scene.ribbon);
  if (d) group.append(draw('path', { d, class: 'ribbon' }));
  return group;
}

function arrow(from, to, kind) {
  const dx = to[0] - from[0], dy = to[1] - from[1], n = Math.hypot(dx, dy);
  if (n < 0.5) return draw('g', {});
  const ux = dx / n, uy = dy / n, back = [to[0] - 5 * ux, to[1] - 5 * uy];
  return draw('g', { class: kind },
    draw('line', { x1: from[0], y1: from[1], x2: back[0], y2: back[1] }),
    draw('polygon', { points: points([to, [back[0] - 2 * uy, back[1] + 2 * ux], [back[0] + 2 * uy, back[1] - 2 * ux]]) }));
}

function label(x, y, text, anchor) {
  return draw('text', { x, y: -y, 'font-size': size, 'text-anchor': anchor || 'start', class: 'mark' }, text);
}

function groundOf(scene, [x0, , x1]) {
  if (!scene.ground) return null;
  const { at: [x, y], along: [tx, ty] } = scene.ground;
  const y0 = y + ((x0 - x) * ty) / tx, y1 = y + ((x1 - x) * ty) / tx;
  return draw('g', { class: 'ground' }, draw('line', { x1: x0, y1: y0, x2: x1, y2: y1 }),
    draw('polygon', { class: 'earth', points: points([[x0, y0], [x1, y1], [x1, y1 - 3], [x0, y0 - 3]]) }));
}

function sideView(scene, scale, words) {
  const up = draw('g', { transform: 'scale(1,-1)' }), texts = draw('g', {});
  up.append(groundOf(scene, scene.window) || draw('g', {}));
  for (const name of ['outer', 'inner', 'coronet']) up.append(draw('polyline', { points: points(scene.lines[name]), class: `wall ${name}` }));
  const wall = [...scene.lines.outer, ...[...scene.lines.inner].reverse()];
  up.append(draw('polygon', { points: points(wall), class: 'wallfill' }));
  for (const bone of scene.bones) up.append(draw('path', { d: bone.path, class: 'bone' }));
  up.append(partsOf(scene, scale));
  for (const bone of scene.bones) up.append(draw('path', { d: bone.path, class: 'bone' }));
  if (scene.joint) up.append(draw('circle', { cx: scene.joint[0], cy: scene.joint[1], r: 1.6, class: 'joint' }));
  for (const c of scene.cables) {
    up.append(draw('polyline', { points: points(c.at), class: 'cable' }));
    const [x, y] = c.at[c.at.length - 1];
    texts.append(label(x + 2, y, `${inWords('tendon', words)} ${numberText(c.N)} N`));
  }
  for (const f of scene.forces) {
    up.append(arrow(f.at, f.to, 'force'));
    texts.append(label(f.to[0] + 3, f.to[1] - 2, `${f.name} ${numberText(f.N)} N`));
  }
  return { up, texts, window: scene.window };
}

function ringView(scene, scale) {
  const [, y0, x1, y1] = scene.window;
  const up = draw('g', { transform: 'scale(1,-1)' }), texts = draw('g', {}), window = [-x1, y0, x1, y1];
  up.append(groundOf(scene, window) || draw('g', {}));
  const half = partsOf(scene, scale), mirrored = half.cloneNode(true);
  mirrored.setAttribute('transform', 'scale(-1,1)');
  up.append(half, mirrored, draw('line', { x1: 0, y1: y0, x2: 0, y2: y1, class: 'axis' }));
  if (scene.load.N > 0) {
    up.append(arrow([0, y1 - 1], [0, y1 - 1 - scene.load.mm], 'force'));
    texts.append(label(3, y1 - 5, `load ${numberText(scene.load.N)} N`));
  }
  return { up, texts, window };
}

/** A bar of 20 mm in the lower left corner. */
function ruler([x0, y0], magnified) {
  return draw('g', {}, draw('line', { x1: x0 + 3, x2: x0 + 23, y1: -(y0 + 4), y2: -(y0 + 4), class: 'ruler' }),
    label(x0 + 25, y0 + 2.8, `20 mm · movement × ${magnified}`));
}

/** The picture of one run; `alt` is read instead of it. */
export function picture(scene, scale, alt, words) {
  const { up, texts, window } = scene.kind === 'sagittal' ? sideView(scene, scale, words) : ringView(scene, scale);
  const [x0, y0, x1, y1] = window;
  const cross = draw('g', { class: 'cross', visibility: 'hidden' },
    draw('line', { x1: -4, x2: 4, y1: 0, y2: 0 }), draw('line', { x1: 0, x2: 0, y1: -4, y2: 4 }));
  const svg = draw('svg', { viewBox: `${x0} ${-y1} ${x1 - x0} ${y1 - y0}`, role: 'application', tabindex: '0', 'aria-label': alt, class: 'foot' },
    up, texts, ruler(window, scene.magnified), cross);
  return svg;
}

/** One key for all pictures of a view: the bands with their bounds. */
export function scaleKey(scale, name) {
  const { levels, colours, label: what, unit } = scale, w = 46, h = 14;
  const svg = draw('svg', { class: 'scalekey', viewBox: `0 0 ${colours.length * w + 30} 34`, role: 'img', 'aria-label': `${what} from ${levels[0]} to ${levels[levels.length - 1]} ${unit}, ${colours.length} bands` });
  colours.forEach((c, k) => svg.append(draw('rect', { x: 8 + k * w, y: 2, width: w, height: h, fill: c, class: 'band' })));
  levels.forEach((l, k) => svg.append(draw('text', { x: 8 + k * w, y: 29, 'font-size': 11, 'text-anchor': 'middle', class: 'keytext' }, String(+l.toFixed(6)))));
  return [`${name}: ${what}, ${unit}`, svg];
}
